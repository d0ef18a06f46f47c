import { isNotedLabel } from '../normalise/pages-notation.js';

/** What a clause of a note states. `pages` are the labels that it names, none where it speaks of its own row. */
export interface Stated {
  readonly key: string;
  /** The words of the note, as they stand there. */
  readonly words: string;
  readonly pages: readonly string[];
  /** Whether the clause says nothing else. */
  readonly alone: boolean;
  readonly fact: StatedFact;
}

type StatedFact =
  | { readonly is: 'condition'; readonly text: string }
  | { readonly is: 'absent'; readonly published: 'yes' | 'no' }
  | { readonly is: 'duplicate'; readonly of: string }
  | { readonly is: 'retake'; readonly of: string };

/** Phrases in notes that state a fact: common practice, no source. `key` is what a reading file calls the phrase. */
interface Phrase {
  readonly key: string;
  readonly pattern: RegExp;
  readonly fact: (match: RegExpExecArray) => StatedFact;
  readonly means: string;
}

const FRAME = String.raw`(?:fr(?:ame)?\.? ?|exp(?:osure)?\.? ?|image ?|bild ?|aufnahme ?|vue ?|#)?(\d{1,6}[A-Z]?)\b`;

/** A word between letters that are none: `\b` knows no accents. */
function word(words: string): RegExp {
  return new RegExp(`(?<!\\p{L})(?:${words})(?!\\p{L})`, 'iu');
}

/** Damage by its English word, with what German and French coordinators write. */
const CONDITIONS: readonly (readonly [key: string, words: string])[] = [
  ['torn', 'torn|(?:ein|zer|ab)gerissen|déchirée?s?|déchirures?'],
  ['mutilated', 'mutilated|verstümmelt|mutilée?s?'],
  ['clipped', 'clipped|ausgeschnitten|découpée?s?'],
  ['stained', 'stained|fleckig|verschmutzt|tachée?s?'],
  ['creased', 'creased|geknickt|verknittert|pliée?s?|froissée?s?'],
  ['damaged', 'damaged|beschädigt|endommagée?s?|abîmée?s?'],
  ['out of focus', 'out of focus|unscharf|floues?|flou'],
  ['illegible', 'illegible|unleserlich|illisibles?'],
  ['faded', 'faded|verblasst|pâlie?s?'],
];

export const PHRASES: readonly Phrase[] = [
  {
    key: 'dup. of',
    pattern: new RegExp(
      String.raw`\b(?:(?:dup(?:l|licate)?\.?|copy) of|doppel von|dublette von|doublon de(?: la)?|double de(?: la)?) ${FRAME}`,
      'i',
    ),
    fact: ([, of = '']) => ({ is: 'duplicate', of }),
    means: 'the frame is a duplicate of that frame and is held back',
  },
  {
    key: 'retake of',
    pattern: new RegExp(String.raw`\b(?:re-?take|re-?film(?:ed)?|re-?shot|neuaufnahme|reprise) (?:of|von|de(?: la)?) ${FRAME}`, 'i'),
    fact: ([, of = '']) => ({ is: 'retake', of }),
    means: 'the frame was filmed to replace that frame',
  },
  {
    key: 'not published',
    pattern: word('not published|never published|not issued|no issue|nicht erschienen|non paru|pas paru|non publiée?'),
    fact: () => ({ is: 'absent', published: 'no' }),
    means: 'of a page that is named beside it, or of a row without a frame number: it was not published',
  },
  {
    key: 'wanting',
    pattern: word(
      'wanting|missing|not on film|not filmed|lacking|lacks|fehlt|fehlen|nicht verfilmt|nicht auf (?:dem )?film|manque|manquent|manquante?s?',
    ),
    fact: () => ({ is: 'absent', published: 'yes' }),
    means: 'of a page that is named beside it, or of a row without a frame number: it was published and is not on the film',
  },
  ...CONDITIONS.map(
    ([key, words]): Phrase => ({
      key,
      pattern: word(words),
      fact: ([text]) => ({ is: 'condition', text: text.toLowerCase() }),
      means: 'the condition of a page that is named beside it, or of the page of the row',
    }),
  ),
];

const PAGE_WORD = String.raw`(?:pp?|pgs?|pages?|S|Seiten?|Bl)\b\.?\s*`;
const LABEL = String.raw`[A-Z]{0,2}\d{1,3}`;
const LABELS = String.raw`${LABEL}(?:\s*[-\u2013]\s*${LABEL})?`;
const OF_PAGES = new RegExp(
  String.raw`(?<!\p{L})${PAGE_WORD}(${LABELS}(?:(?:\s*(?:,|&|\band\b|\bund\b|\bet\b)\s*)${LABELS}(?!\p{L}))*)`,
  'iu',
);
/** Where one clause ends: before the next page that is named, at a semicolon, at a full stop before a capital letter. */
const CLAUSE = new RegExp(String.raw`\s*;\s*|\.\s+(?=\p{Lu}\p{L}{2})|(?:\s*,|\s+and|\s+und|\s+et)\s+(?=${PAGE_WORD}${LABEL})`, 'u');
const LONGEST_NOTE = 1000;
/** More pages than a newspaper has are a slip. */
const MOST_PAGES = 100;

/** What a note states in phrases, clause by clause. */
export function statedIn(note: string): readonly Stated[] {
  return note
    .slice(0, LONGEST_NOTE)
    .split(CLAUSE)
    .flatMap((clause) => {
      const named = OF_PAGES.exec(clause);
      const pages = labelsIn(named?.[1] ?? '');
      return PHRASES.flatMap(({ key, pattern, fact }): readonly Stated[] => {
        const match = pattern.exec(clause);
        if (match === null) return [];
        const rest = clause.replace(match[0], '').replace(named?.[0] ?? '', '');
        return [{ key, words: match[0], pages, alone: !/[\p{L}\d]/u.test(rest), fact: fact(match) }];
      });
    });
}

/** The labels in a text that names pages and says nothing else: `p. 5`, `3-4`. */
export function pagesNamed(text: string): readonly string[] {
  return labelsIn(OF_PAGES.exec(text)?.[1] ?? text);
}

/** `3-5, 7` as labels. */
function labelsIn(text: string): readonly string[] {
  return text
    .split(/\s*(?:[,;&]|\band\b|\bund\b|\bet\b)\s*/i)
    .flatMap((part) => {
      const [, prefix, from, again, to] = /^([A-Z]{0,2})(\d{1,3})(?:\s*[-\u2013]\s*([A-Z]{0,2})(\d{1,3}))?$/i.exec(part.trim()) ?? [];
      if (from === undefined || prefix === undefined) return [];
      const [first, last] = [Number(from), Number(to ?? from)];
      if (last < first || last - first >= MOST_PAGES || (again !== undefined && again !== '' && again !== prefix)) return [];
      return Array.from({ length: last - first + 1 }, (_, at) => `${prefix}${String(first + at)}`);
    })
    .filter(isNotedLabel);
}
