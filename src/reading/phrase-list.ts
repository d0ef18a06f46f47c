/** What a note states in words, as far as the record has a field for it. */
export type StatedFact =
  | { readonly is: 'condition'; readonly text: string }
  | { readonly is: 'absent'; readonly published: 'yes' | 'no' }
  /** `of` is null where the note does not say which frame. */
  | { readonly is: 'duplicate'; readonly of: string | null }
  | { readonly is: 'retake'; readonly of: string | null }
  | { readonly is: 'held back' }
  /** `-` where nothing is printed. */
  | { readonly is: 'page printed'; readonly label: string }
  | { readonly is: 'edition'; readonly number: string }
  | { readonly is: 'edition label'; readonly words: string }
  | { readonly is: 'supplement' }
  | { readonly is: 'date printed'; readonly text: string };

/** Phrases in notes that state a fact: common practice, no source. `key` is what a reading file calls the phrase. */
export interface Phrase {
  readonly key: string;
  readonly pattern: RegExp;
  /** Whether the words say it only where the clause says nothing else: `skip` is no order in "the numbers skip from 4 to 6". */
  readonly alone?: boolean;
  readonly fact: (match: RegExpExecArray) => StatedFact;
  readonly means: string;
}

const FRAME = String.raw`(?:fr(?:ame)?\.? ?|exp(?:osure)?\.? ?|image ?|bild ?|aufnahme ?|vue ?|#)?(\d{1,6}[A-Z]?)\b`;
/** A label, and neither the day of a month nor the first of several. */
const LABEL = String.raw`["\u201c\u201e]?([A-Z]{0,2}\d{1,3}[a-z]?)["\u201d\u201c]?(?![\p{L}\d]|\s?[-\u2013./]\s?\d|\.? (?:jan|feb|fév|mar|mär|apr|avr|may|mai|jun|jui|jul|aug|aoû|sep|oct|okt|nov|dec|dez|déc))`;
const PAGE = String.raw`(?:(?:pages?|pp?|Seite|S)\b\.? ?)?`;

/** A word between letters that are none: `\b` knows no accents. What is denied is not said. */
function word(words: string): RegExp {
  return new RegExp(`(?<!\\p{L})(?<!\\b(?:not|no|never|nicht|kein|keine|non|pas) )(?:${words})(?!\\p{L})`, 'iu');
}

/** Damage and what else is odd about a frame by its English word, with what German and French coordinators write. */
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
  ['upside down', "upside[- ]down|auf dem kopf(?: stehend)?|kopfstehend|kopfüber|à l['’]envers|tête-bêche"],
  [
    'out of order',
    'out of (?:order|sequence)|transposed|(?:in )?(?:falscher|verkehrter|vertauschter) reihenfolge|vertauscht|interverties?|intervertis?|dans le désordre|en désordre',
  ],
];

const ORDINALS: readonly (readonly [number: string, words: string])[] = [
  ['1', 'first|erste|première|1re|1ère'],
  ['2', 'second|zweite|deuxième|seconde'],
  ['3', 'third|dritte|troisième'],
  ['4', 'fourth|vierte|quatrième'],
  ['5', 'fifth|fünfte|cinquième'],
];
const ORDINAL = ORDINALS.map(([, words]) => words).join('|');

const MONTH_DAY = String.raw`\p{L}{3,12}\.? \d{1,2}(?:st|nd|rd|th)?`;
const DAY_MONTH = String.raw`\d{1,2}(?:st|nd|rd|th|er|\.)? \p{L}{3,12}\.?`;
const IN_FIGURES = String.raw`\d{4}-\d{2}-\d{2}|\d{1,2}[./]\d{1,2}[./](?:\d{4}|\d{2})`;
const YEAR = String.raw`(?:1[5-9]|20)\d\d`;
/** A day, a day of a year that goes without saying, or a year. */
const DATE = String.raw`["\u201c\u201e]?((?:\p{L}{2,10}\.?,? )?(?:(?:${MONTH_DAY}|${DAY_MONTH})(?:,? ${YEAR})?|${IN_FIGURES})|${YEAR})["\u201d\u201c]?(?![\p{L}\d])`;
const DATED = [
  String.raw`(?:wrongly |falsely )?(?:mis-?)?dated(?: as| in error| wrongly)?`,
  String.raw`(?:masthead|nameplate|date on (?:the )?paper|date printed|printed date|paper)(?: says| reads| has| gives| is|:)`,
  String.raw`printed(?: as| date)?`,
  String.raw`(?:falsch |fälschlich )?datiert(?: auf| mit| vom)?(?: den| dem)?`,
  String.raw`(?:kopf|titelkopf|zeitungskopf|gedrucktes datum)(?: sagt| nennt| hat| ist|:)(?: den)?`,
  String.raw`(?:mal )?datée?s?(?: par erreur)?(?: du| de)?`,
  String.raw`(?:l['’]en-tête|le titre|l['’]ours|date imprimée) ?(?:porte|dit|indique|:)(?: le| la date du)?`,
].join('|');

const numberOf = (text: string): string =>
  ORDINALS.find(([, words]) => words.split('|').includes(text.toLowerCase()))?.[0] ?? String(Number.parseInt(text, 10));

const OF_FRAMES: readonly Phrase[] = [
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
    key: 'duplicate',
    pattern: word(
      '(?:dup|dupl|duplicate|doppelt|doppelaufnahme|dublette|doublon|filmed twice|zweimal verfilmt|filmée? deux fois)(?: of| von| de(?: la)?)?',
    ),
    alone: true,
    fact: () => ({ is: 'duplicate', of: null }),
    means: 'the frame is a duplicate of the other one that shows the same page, and is held back',
  },
  {
    key: 'retake of',
    pattern: new RegExp(String.raw`\b(?:re-?take|re-?film(?:ed)?|re-?shot|neuaufnahme|reprise) (?:of|von|de(?: la)?) ${FRAME}`, 'i'),
    fact: ([, of = '']) => ({ is: 'retake', of }),
    means: 'the frame was filmed to replace that frame',
  },
  {
    key: 'retake',
    pattern: word(
      '(?:re-?take|re-?filmed|re-?film|re-?shot|neuaufnahme|neu aufgenommen|nachaufnahme|reprise|refilmée?)(?: of| von| de(?: la)?)?',
    ),
    alone: true,
    fact: () => ({ is: 'retake', of: null }),
    means: 'the frame was filmed to replace the one before it that shows the same page',
  },
  {
    key: 'not to be delivered',
    pattern: word(
      "(?:do not|don['’]t) (?:scan|deliver|use|digiti[sz]e)|not to be (?:scanned|delivered|digiti[sz]ed)|not for delivery|h[eo]ld back|nicht (?:zu )?(?:scannen|liefern|ausliefern|digitalisieren)|zurückhalten|zurückgehalten|(?:à )?ne pas (?:numériser|scanner|livrer)",
    ),
    fact: () => ({ is: 'held back' }),
    means: 'the frame keeps its number and is held back from delivery',
  },
  {
    key: 'skip',
    pattern: word(
      '(?:skip|skipped|omit|ignore|überspringen|auslassen|weglassen|ignorer|à ignorer|à sauter)(?: this)?(?: frame| page| image| bild| vue)?',
    ),
    alone: true,
    fact: () => ({ is: 'held back' }),
    means: 'the frame keeps its number and is held back from delivery',
  },
];

/** What goes before a number that is not one of a page. */
const NO_PAGE = String.raw`(?<!\b(?:issues?|vol|volume|no|whole|reel|frames?|heft|nummer|jahrgang|numéro)\b\.? )`;

const OF_PAGES: readonly Phrase[] = [
  {
    key: 'printed as',
    pattern: new RegExp(
      [
        String.raw`(?<!\p{L})${NO_PAGE}(?:printed|numbered|paged|paginated|labelled|labeled|mis-?numbered|mis-?paged|mis-?paginated)(?: as| in error| wrongly)* ${PAGE}${LABEL}`,
        String.raw`(?<!\p{L})(?:gedruckt|gezählt|paginiert|nummeriert|bezeichnet)(?: als| mit) ${PAGE}${LABEL}`,
        String.raw`(?<!\p{L})als ${PAGE}${LABEL} (?:gedruckt|gezählt|paginiert|nummeriert|bezeichnet)`,
        String.raw`(?<!\p{L})(?:imprimée?|numérotée?|paginée?|chiffrée?)(?: par erreur| comme)* ${PAGE}${LABEL}`,
      ].join('|'),
      'iu',
    ),
    fact: (match) => ({ is: 'page printed', label: match.slice(1).find((one) => (one as string | undefined) !== undefined) ?? '' }),
    means: 'the number that is printed on the page',
  },
  {
    key: 'unnumbered',
    pattern: word(
      'unnumbered|not numbered|unpaginated|no page number|ohne seitenzahl|unpaginiert|nicht (?:nummeriert|paginiert)|non (?:numérotée?|paginée?)|sans numéro',
    ),
    fact: () => ({ is: 'page printed', label: '-' }),
    means: 'no number is printed on the page',
  },
  {
    key: 'blank',
    pattern: word('(?:is )?(?:blank|left blank|leer|vakat|vierge|blanche)(?: page| side)?|leerseite|leere seite|page (?:blanche|vierge)'),
    alone: true,
    fact: () => ({ is: 'page printed', label: '-' }),
    means: 'nothing is printed on the page, which is a blank side of its issue',
  },
];

const OF_ISSUES: readonly Phrase[] = [
  {
    key: 'edition',
    pattern: new RegExp(
      String.raw`(?<![\p{L}\d])(?:(\d{1,2})(?:st|nd|rd|th|\.|re|e|ère|ème|de)|(${ORDINAL})) ?(?:edition|edn|ed\b\.?|ausgabe|édition|éd\b\.?)(?!\p{L})`,
      'iu',
    ),
    fact: ([, figure, name]) => ({ is: 'edition', number: numberOf(figure ?? name ?? '') }),
    means: 'the number of the edition of that day, 1 for the first',
  },
  {
    key: 'named edition',
    pattern: word(
      [
        '(?:early |late )?(?:morning|noon|midday|afternoon|evening|night|late|early|final|city|country|mail|extra|special|home|suburban) edition',
        '(?:morgen|mittags?|abend|nacht|spät|früh|sonder|extra|stadt|land|fern)(?:ausgabe|blatt)',
        "édition (?:du (?:matin|soir|midi|jour)|de nuit|de l['’]après-midi|spéciale|extraordinaire|de (?:paris|province))",
      ].join('|'),
    ),
    fact: ([words]) => ({ is: 'edition label', words }),
    means: 'the name of the edition on the paper',
  },
  {
    key: 'supplement',
    pattern: word('supplement|suppl|beilage|supplément'),
    alone: true,
    fact: () => ({ is: 'supplement' }),
    means: 'what the row lists is a supplement of the issue',
  },
  {
    key: 'misdated',
    pattern: new RegExp(
      String.raw`(?<!\p{L})(?:${DATED}) (?:the )?${DATE}(?: (?:on|in|auf|sur) (?:the |dem |le )?(?:paper|masthead|papier|kopf))?`,
      'iu',
    ),
    fact: ([, text = '']) => ({ is: 'date printed', text }),
    means: 'the date that is printed on the paper',
  },
];

const OF_ABSENCE: readonly Phrase[] = [
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
];

export const PHRASES: readonly Phrase[] = [
  ...OF_FRAMES,
  ...OF_ABSENCE,
  ...OF_PAGES,
  ...OF_ISSUES,
  ...CONDITIONS.map(
    ([key, words]): Phrase => ({
      key,
      pattern: word(words),
      fact: ([text]) => ({ is: 'condition', text: text.toLowerCase() }),
      means: 'the condition of a page that is named beside it, or of the page of the row',
    }),
  ),
];
