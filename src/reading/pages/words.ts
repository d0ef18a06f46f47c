import { PHRASES } from '../phrase-list.js';
import { meantBy } from '../propose/words.js';
import { type Ways, wordKey } from '../ways.js';

/** What a word among the pages of an issue says. */
export type PagesWord =
  /** A word for a page, which says nothing by itself: `S. 3` is page 3, `4 pp.` are four. */
  | { readonly is: 'page'; readonly many: boolean }
  /** Two pages each. */
  | { readonly is: 'leaf' }
  | { readonly is: 'to' | 'and' | 'with' | 'all' | 'nothing' | 'printed' | 'right' | 'supplement' | 'cover' | 'twice' | 'unnumbered' }
  | { readonly is: 'absent'; readonly key: string; readonly published: 'yes' | 'no' }
  | { readonly is: 'damage'; readonly text: string }
  | { readonly is: 'sign'; readonly kind: 'blank' | 'target' | 'void'; readonly many: boolean };

/** What a reading file can say that a word among the pages means. */
export const PAGES_MEANINGS = [
  'not on the film',
  'not published',
  'damage',
  'blank',
  'target',
  'void',
  'number of pages',
  'nothing',
] as const;

/** Words of English, German and French coordinators beside the labels: common practice, no source. */
const USUAL: readonly (readonly [PagesWord, string])[] = [
  [{ is: 'page', many: false }, 'p, pg, page, S, Seite'],
  [{ is: 'page', many: true }, 'pp, pgs, pages, Seiten, pag'],
  [{ is: 'to' }, 'to, through, thru, bis, à'],
  [{ is: 'and' }, 'and, und, u, et, plus'],
  [
    { is: 'all' },
    'all, all pages, complete, entire, whole, whole issue, alle, alles, vollständig, komplett, complet, complète, complets, toutes, tout',
  ],
  [{ is: 'nothing' }, 'only, nur, seulement, filmed, on film, verfilmt, vorhanden, filmées, ok'],
  [
    { is: 'printed' },
    'printed, printed as, numbered, numbered as, misnumbered, misprinted as, gedruckt, gedruckt als, paginiert, gezählt als, paginée, numérotée',
  ],
  [{ is: 'right' }, 'recte, ie, i.e., correctly, richtig, lire'],
  [{ is: 'supplement' }, 'supplement, supplements, suppl, supp, Beilage, Beilagen, Beil, supplément, suppléments'],
  [{ is: 'cover' }, 'cover, Umschlag, couverture'],
  [{ is: 'with' }, 'with, mit, avec'],
  [{ is: 'twice' }, 'twice, duplicated, repeated, zweimal, deux fois'],
  [{ is: 'absent', key: 'wanting', published: 'yes' }, 'except, without, all but, außer, ohne, sauf, sans, absent, absente, absentes'],
];

const BY_WORD: ReadonlyMap<string, PagesWord> = new Map(
  USUAL.flatMap(([meaning, words]) => words.split(',').map((word) => [bare(word), meaning] as const)),
);

/** As words are compared here: no stops. */
function bare(word: string): string {
  return wordKey(word).replaceAll('.', '');
}

/** What one to several words say: by the reading file, else by what is usual; null for words that nobody knows. */
export function meaningOf(text: string, ways: Ways): PagesWord | null {
  const own = ways.words.get('pages')?.get(wordKey(text));
  if (own !== undefined) return said(own, text);
  const usual = BY_WORD.get(bare(text));
  if (usual !== undefined) return usual;
  for (const { key, pattern, fact } of PHRASES) {
    const match = pattern.exec(text);
    if (match?.[0] !== text) continue;
    const states = fact(match);
    if (states.is === 'absent') return { is: 'absent', key, published: states.published };
    if (states.is === 'page printed' && key === 'unnumbered') return { is: 'unnumbered' };
    if (states.is === 'condition') return { is: 'damage', text: states.text };
  }
  return shownBy(text);
}

/** Words for frames that are no pages, and for second copies; short ones are no words here. */
function shownBy(text: string): PagesWord | null {
  if (text.length < 4 && !/^dup\.?$/i.test(text)) return null;
  const [alone, one] = [meantBy('kind', text), meantBy('kind', text.replace(/s$/i, ''))];
  const kind = alone ?? one;
  if (kind === 'held back') return { is: 'twice' };
  if (kind !== 'blank' && kind !== 'target' && kind !== 'void') return null;
  return { is: 'sign', kind, many: alone === null };
}

function said(meaning: string, text: string): PagesWord {
  switch (meaning) {
    case 'not on the film':
      return { is: 'absent', key: '', published: 'yes' };
    case 'not published':
      return { is: 'absent', key: '', published: 'no' };
    case 'damage':
      return { is: 'damage', text: text.toLowerCase() };
    case 'blank':
    case 'target':
    case 'void':
      return { is: 'sign', kind: meaning, many: false };
    case 'number of pages':
      return { is: 'page', many: true };
    case 'number of leaves':
      return { is: 'leaf' };
    default:
      return { is: 'nothing' };
  }
}
