import { editionSaid } from '../../calendar/edition-names.js';
import { DELIVERED, HELD_BACK } from '../../normalise/delivery-words.js';
import { isNamedFrame, TAKES } from '../named-frames.js';
import { PAGES_WANTING } from '../names.js';
import { type Asked, asked } from './asked.js';

interface Vocabulary {
  readonly ours: readonly string[];
  /** Words that are read without a reading file, besides ours. */
  readonly read: readonly string[];
  /** The question about a word, which comes with the place where it stands. */
  readonly asks: (word: string) => string;
  /** What people write: common practice, no source. */
  readonly usual: Readonly<Record<string, readonly string[]>>;
}

/** Marks in a column that names another frame where it names any. */
function markedAs(does: string): Vocabulary {
  return {
    ours: ['yes', 'no'],
    read: [],
    asks: (word) => `Does ${word} say that the frame ${does} the other one that shows the same page?`,
    usual: {
      yes: [
        'd',
        'dup',
        'dupl',
        'duplicate',
        'dublette',
        'doublon',
        'r',
        'retake',
        'refilm',
        'neuaufnahme',
        'reprise',
        'x',
        '✓',
        '✔',
        'y',
        'ja',
        'j',
        'oui',
        'o',
      ],
      // An N under "Neuaufnahme" is no no.
      no: ['-', '–', 'nein', 'non'],
    },
  };
}

const VOCABULARIES: ReadonlyMap<string, Vocabulary> = new Map([
  [
    'kind',
    {
      ours: ['page', 'blank', 'target', 'void', 'other', 'supplement', 'held back', 'not on the film'],
      read: [],
      asks: (word) => `What kind of frame is ${word}?`,
      usual: {
        page: ['p', 'pg', 'newspaper page', 'text', 'front page', 'paper', 'Seite', 'Zeitungsseite'],
        blank: [
          'b',
          'blk',
          'empty',
          'blank frame',
          'blank page',
          'leer',
          'Leerbild',
          'Leerseite',
          'Leeraufnahme',
          'vue blanche',
          'blanc',
          'blanche',
          'vierge',
          'vide',
        ],
        target: [
          't',
          'start',
          'end',
          'title target',
          'start target',
          'end target',
          'start of reel',
          'end of reel',
          'targets',
          'title',
          'title page',
          'project target',
          'resolution target',
          'test target',
          'test chart',
          'Titelblatt',
          'Titel',
          'Titeltafel',
          'Testtafel',
          'Tafel',
          'Vorspann',
          'Nachspann',
          'Anfang',
          'Ende',
          'Testbild',
          'Anfangstestbild',
          'Endtestbild',
          'mire',
          'cible',
          'page de titre',
          'début',
          'fin',
          'fin de bobine',
        ],
        void: [
          'v',
          'bad',
          'bad frame',
          'spoiled',
          'spoilt',
          'spoiled frame',
          'punched',
          'hole',
          'hole punched',
          'ruined',
          'unusable',
          'unbrauchbar',
          'Fehlaufnahme',
          'ratée',
          'à supprimer',
        ],
        other: ['leader', 'trailer', 'ruler', 'index', 'irregularity', 'Maßstab', 'Lineal', 'amorce', 'règle'],
        supplement: ['supplement page', 'suppl', 'supp', 'Beilage', 'Beilagenseite', 'supplément'],
        'held back': [
          'dup',
          'duplicate',
          'suppress',
          'suppressed',
          'do not deliver',
          'not delivered',
          'doppelt',
          'Dublette',
          'doublon',
          'double',
        ],
        'not on the film': [
          'missing',
          'wanting',
          'not filmed',
          'lacking',
          'not on film',
          'fehlt',
          'nicht verfilmt',
          'manque',
          'manquant',
          'manquante',
        ],
      },
    },
  ],
  [
    'deliver',
    {
      ours: ['yes', 'no'],
      read: ['true', 'false', 'y', 'n', '1', '0', ...DELIVERED, ...HELD_BACK],
      asks: (word) => `Does ${word} say that the frame is delivered?`,
      usual: {
        yes: ['d', 'scan', 'ok', '✓', '✔', 'ja', 'oui'],
        no: ['s', 'hold', 'do not deliver', 'skip', 'reject', 'rejected', '✗', '✘', 'nein', 'non'],
      },
    },
  ],
  ['duplicate of', markedAs('repeats')],
  ['retake of', markedAs('was filmed to replace')],
  [
    'published',
    {
      ours: ['yes', 'no', 'unknown'],
      read: [],
      asks: (word) => `Does ${word} say that it was published?`,
      usual: {
        yes: ['y', 'published', 'ja', 'oui'],
        no: ['n', 'not published', 'never published', 'nein', 'nicht erschienen', 'non', 'non paru'],
        unknown: ['?', 'not known', 'uncertain', 'unbekannt', 'inconnu'],
      },
    },
  ],
  [
    'supplement',
    {
      ours: ['yes', 'no'],
      read: ['true', 'false', 'y', 'n', '1', '0'],
      asks: (word) => `Does ${word} say that the page is one of a supplement?`,
      usual: { yes: ['s', 'sup', 'supp', 'suppl', 'supplement', 'x', '✓', 'ja', 'oui', 'Beilage', 'supplément'], no: ['-', 'nein', 'non'] },
    },
  ],
  [
    'edition',
    {
      ours: ['1', '2', '3', '4', '5', '6'],
      read: [],
      asks: (word) => `Which edition of the day, as a number, is ${word}?`,
      usual: {},
    },
  ],
  [
    'pages wanting',
    {
      ours: ['all', 'some'],
      read: [],
      asks: (word) => `Does ${word}, under the pages that are wanting, say that all of the issue is, or some of its pages?`,
      usual: { all: ['x', '✓', '✔', 'yes', 'y', 'ja', 'j', 'oui', 'o', 'issue', 'Ausgabe', 'numéro'] },
    },
  ],
  [
    'position',
    { ours: ['1A', '1B', '2A', '2B'], read: ['ia', 'ib', 'iia', 'iib'], asks: (word) => `Which image position is ${word}?`, usual: {} },
  ],
  [
    'date printed judged',
    {
      ours: ['right', 'wrong', 'unclear'],
      read: [],
      asks: (word) => `What does ${word} say of the printed date?`,
      usual: { unclear: ['?', 'uncertain'], wrong: ['x', 'misdated', 'misprint'] },
    },
  ],
]);

/** What is to be asked of a word in a column of few words; null for one that is ours. */
export function askedOfWord(field: string, text: string, where: string): Asked | null {
  const vocabulary = VOCABULARIES.get(field);
  const word = text.toLowerCase();
  if (vocabulary === undefined) return null;
  const { ours, read, asks } = vocabulary;
  // Only the kinds of a frame are understood unasked: what else a kind may say here is a meaning of the row.
  const understood = field === 'kind' ? ours.slice(0, 5) : ours;
  if (TAKES.has(field) ? isNamedFrame(text) : understood.some((one) => one.toLowerCase() === word) || read.includes(word)) return null;
  if (field === 'edition' && /^\d{1,3}$/.test(word)) return null;
  if (field === 'edition') return askedOfEdition(text, where, vocabulary);
  const usual = meantBy(field, text);
  // Pages, and remarks about them, are read where the pages are.
  if (field === PAGES_WANTING && usual === null) return null;
  // A word among others, `Mire de fin`, is likely what it says alone.
  const proposed = usual ?? (field === 'kind' ? kindWithin(text) : null);
  // What takes a frame away, or holds it back, is never taken unasked.
  const doubtful =
    ['supplement', 'held back', 'not on the film'].includes(proposed ?? '') || field === 'date printed judged' || field === PAGES_WANTING;
  return asked('words', text, asks(`"${text.slice(0, 60)}" (${where})`), {
    choices: ours,
    proposed,
    sure: usual !== null && !doubtful,
    field,
  });
}

function askedOfEdition(text: string, where: string, { ours, asks }: Vocabulary): Asked {
  const said = editionSaid(text);
  const name = said.is === 'number' ? '' : ' The words are kept as the label of the edition.';
  return asked('words', text, `${asks(`"${text.slice(0, 60)}" (${where})`)}${name}`, {
    choices: said.is === 'number' && !ours.includes(said.number) ? [...ours, said.number] : ours,
    proposed: said.is === 'number' ? said.number : said.is === 'name' ? said.place : null,
    // Which edition a name is, the paper alone knows: some have an evening edition and no other.
    sure: said.is === 'number',
    field: 'edition',
  });
}

/** What a word in such a column usually means; null for one that is not usual. */
export function meantBy(field: string, text: string): string | null {
  const vocabulary = VOCABULARIES.get(field);
  const word = text.trim().toLowerCase();
  const bare = word.replace(/[.:!]+$/, '');
  const usual = Object.entries(vocabulary?.usual ?? {}).find(([, words]) => words.some((one) => [word, bare].includes(one.toLowerCase())));
  return usual?.[0] ?? vocabulary?.ours.find((one) => one === bare) ?? null;
}

/** What a frame shows by a note that holds such a word among others, `Start target, 300 dpi`; null for none, and for two that differ. */
export function kindWithin(note: string): string | null {
  const whole = meantBy('kind', note);
  if (whole !== null) return whole;
  const words = note.toLowerCase().split(/[^\p{L}]+/u);
  const kinds = ['blank', 'target', 'void'].filter((kind) =>
    words.some((one) => one.length > 3 && (one === kind || one === `${kind}s` || meantBy('kind', one) === kind)),
  );
  return kinds.length === 1 ? (kinds[0] ?? null) : null;
}
