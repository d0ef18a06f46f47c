import type { BookRow } from '../../model/written-grid.js';
import type { ColumnPlan } from '../columns.js';
import { coloursOf, commentsIn } from '../marks.js';
import { columnsOf } from '../names.js';
import { PHRASES } from '../phrase-list.js';
import { type Stated, saidOf, statedIn } from '../phrases.js';
import { loneNote, notesIn, SAY_WHAT } from '../read-row.js';
import { type Ways, wordKey } from '../ways.js';
import { type Asked, asked } from './asked.js';
import { firsts, type Laid, where } from './laid.js';
import { kindWithin, meantBy } from './words.js';

const KINDS = ['page', 'blank', 'target', 'void', 'other', 'held back', 'not on the film'] as const;
/** What a row of an issue sheet can hold beside issues. */
const SIGNED = ['blank', 'target', 'void'] as const;

/** What is to be asked of rows of which a note alone says what the camera saw. Each note is a question by itself, so that an answer holds whatever stands beside it. */
export function askedOfShown(film: readonly Laid[], ways: Ways): readonly Asked[] {
  const counts = new Map<string, number>();
  for (const { layout, rows } of film)
    for (const text of rows.flatMap(({ cells }) => notesOf(layout.plans, cells, ways)))
      counts.set(wordKey(text), (counts.get(wordKey(text)) ?? 0) + 1);
  const known = (text: string): boolean => ways.words.get('note')?.has(wordKey(text)) === true;
  // Of several notes the one that names a kind says it, else the one that stands in the fewest rows: initials of who looked at the film stand in all.
  const telling = (texts: readonly string[]): string =>
    texts.find((text) => kindWithin(text) !== null) ??
    texts.toSorted((a, b) => (counts.get(wordKey(a)) ?? 0) - (counts.get(wordKey(b)) ?? 0))[0] ??
    '';
  const lone = film.flatMap((laid) => {
    const { use, plans } = laid.layout;
    if (use !== 'frames' && use !== 'issues') return [];
    const saysWhat = plans.some(({ fields }) => fields.some((field) => SAY_WHAT[use].includes(field)));
    return laid.rows.flatMap(({ row, cells }) => {
      const filled = (field: string): boolean => isFilled(plans, cells, field);
      // Where no column says it, every page of an issue has a note alone.
      if (!saysWhat && filled('date')) return [];
      const coloured = coloursOf({ cells }).some((colour) => (ways.colours.get(colour) ?? 'nothing') !== 'nothing');
      const note = coloured ? null : loneNote(use, filled, notesOf(plans, cells, ways));
      if (note === null || note.texts.some(known)) return [];
      return [{ text: telling(note.texts), numbered: note.numbered, row, laid, use, dated: filled('date') }];
    });
  });
  return firsts(lone, ({ text }) => wordKey(text)).map(({ text, row, laid, use, numbered, dated }) => {
    const kind = kindWithin(text);
    const kinds: readonly string[] = use === 'issues' ? SIGNED : KINDS;
    const choices = numbered && use === 'frames' ? kinds : [...kinds, 'leave out'];
    const proposed = kind !== null && choices.includes(kind) ? kind : null;
    return asked('words', text, `In ${where(laid, row)} a note alone says what the camera saw: "${text.slice(0, 60)}". What was it?`, {
      choices,
      proposed,
      // A frame without a day is no page. What takes a frame away, or holds one back, is never taken unasked.
      sure: proposed !== null && !dated && (SIGNED as readonly string[]).includes(proposed),
      field: 'note',
    });
  });
}

/** The notes of a row, with the comments on its cells where they are read. */
function notesOf(plans: readonly ColumnPlan[], cells: BookRow['cells'], ways: Ways): readonly string[] {
  return [...notesIn(plans, cells), ...commentsIn(cells, ways)];
}

/** Whether a phrase can state anything in its row that no column of the row says. */
function mayState({ fact, pages, alone }: Stated, { layout }: Laid, cells: BookRow['cells']): boolean {
  const { use, plans } = layout;
  const filled = (field: string): boolean => isFilled(plans, cells, field);
  const frames = use === 'frames';
  const textOf = (field: string): string | undefined => {
    const column = plans.find(({ fields }) => fields.includes(field))?.column;
    return cells.find((cell) => cell.column === column)?.value.trim();
  };
  const own = textOf('page');
  const other = pages.some((label) => label !== own);
  switch (fact.is) {
    case 'duplicate':
    case 'retake':
      if (!frames) return fact.is === 'duplicate' && fact.of === null && other && filled('pages');
      return (fact.of !== null || filled('page') || other) && !filled(`${fact.is} of`);
    case 'held back':
      return frames ? (filled('page') || other) && !filled('deliver') : filled('pages');
    case 'page printed':
      return frames ? other || (filled('page') && !filled('page printed') && fact.label !== own) : other && filled('pages');
    case 'says':
      return !other && filled('date') && fact.facts.every(([field]) => columnsOf(use ?? 'frames').includes(field) && !filled(field));
    case 'supplement':
      return !frames && filled('pages') && !filled('supplement');
    case 'day':
      return !other && filled('date') && !filled(fact.field);
    case 'issue number':
      return !other && filled('date') && !filled('issue number intended') && textOf('issue number') !== fact.printed;
    case 'condition':
      // An issue sheet has a place for damage to a page that is named, and for no other.
      return other ? filled('date') || frames : frames;
    case 'absent':
      if (other) return filled('date') || frames;
      // A note that says nothing else may contradict the pages of its issue.
      if (alone && !frames) return !filled('published');
      // That it is a page says nothing of whether it is there.
      if (filled('kind') && (meantBy('kind', textOf('kind') ?? '') ?? 'page') !== 'page') return false;
      return !['frame', 'first frame', 'pages', 'published'].some(filled);
  }
}

function isFilled(plans: readonly ColumnPlan[], cells: BookRow['cells'], field: string): boolean {
  return plans.some(
    ({ column, fields }) => fields.includes(field) && cells.some((cell) => cell.column === column && cell.value.trim() !== ''),
  );
}

/** A question about a phrase, with the key of all that mean the same. */
export type AskedPhrase = Asked & { readonly key: string };

/** What is to be asked of phrases in notes that may state a fact. */
export function askedOfPhrases(film: readonly Laid[], ways: Ways): readonly AskedPhrase[] {
  const notes: readonly Noted[] = film.flatMap((laid) =>
    laid.rows.flatMap(({ row, cells }) =>
      notesOf(laid.layout.plans, cells, ways).flatMap((note) =>
        statedIn(note)
          .filter((stated) => mayState(stated, laid, cells))
          .map((stated) => ({ laid, row, note, stated })),
      ),
    ),
  );
  return PHRASES.flatMap(({ key, means }) => {
    const found = notes.filter(({ stated }) => stated.key === key && saidOf(ways, key, stated.wording) === undefined);
    // Each phrase has an answer of its own, whatever it has in common with others.
    return firsts(found, ({ stated }) => stated.wording).map((first) => ({
      ...phraseQuestion(
        first,
        found.filter(({ stated }) => stated.wording === first.stated.wording),
        means,
      ),
      key,
    }));
  });
}

interface Noted {
  readonly laid: Laid;
  readonly row: number;
  readonly note: string;
  readonly stated: Stated;
}

function phraseQuestion(first: Noted, all: readonly Noted[], means: string): Asked {
  const { words, wording, fact } = first.stated;
  const rows = new Set(all.map(({ laid, row }) => where(laid, row))).size;
  const place = where(first.laid, first.row);
  const whole = first.note === words ? '' : `: "${first.note.slice(0, 60)}"`;
  return asked(
    'phrases',
    wording,
    `${rows === 1 ? 'A note says' : `${String(rows)} notes say`} "${words}", ${rows === 1 ? '' : 'the first '}in ${place}${whole}. Is it to be read as a fact (${means}), or to stay a note and no more?`,
    {
      choices: ['fact', 'note'],
      proposed: 'fact',
      // Damage left as a note changes nothing. Whether something is on the film, or is there twice, nobody may settle unasked.
      sure: fact.is === 'condition' ? 'note' : false,
    },
  );
}
