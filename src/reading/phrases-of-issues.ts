import { DATE, DATED, type Phrase, WEEKDAY, word } from './phrase-parts.js';

const ORDINALS: readonly (readonly [number: string, words: string])[] = [
  ['1', 'first|erste|première|1re|1ère'],
  ['2', 'second|zweite|deuxième|seconde'],
  ['3', 'third|dritte|troisième'],
  ['4', 'fourth|vierte|quatrième'],
  ['5', 'fifth|fünfte|cinquième'],
];
const ORDINAL = ORDINALS.map(([, words]) => words).join('|');

const numberOf = (text: string): string =>
  ORDINALS.find(([, words]) => words.split('|').includes(text.toLowerCase()))?.[0] ?? String(Number.parseInt(text, 10));

const SUPPLEMENT = String.raw`(?:supplements?|suppl\b\.?|beilagen?|suppléments?)`;
const PAGES_OF = String.raw`(?:pp?|pgs?|pages?|S|Seiten?)\b\.?`;

/** The key of a supplement that lies behind the pages of the row, in a note and among the pages. */
export const WITH_SUPPLEMENT = 'with supplement';

/** Phrases in notes that state something of an issue. */
export const OF_ISSUES: readonly Phrase[] = [
  {
    key: 'edition',
    pattern: new RegExp(
      String.raw`(?<![\p{L}\d])(?:(\d{1,2})(?:st|nd|rd|th|\.|re|e|ère|ème|de)|(${ORDINAL})) ?(?:edition|edn|ed\b\.?|ausgabe|édition|éd\b\.?)(?!\p{L})`,
      'iu',
    ),
    fact: ([, figure, name]) => ({ is: 'says', facts: [['edition', numberOf(figure ?? name ?? '')]] }),
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
    fact: ([words]) => ({ is: 'says', facts: [['edition label', words]] }),
    means: 'the name of the edition on the paper',
  },
  {
    key: 'supplement',
    pattern: word('supplement|suppl|beilage|supplément'),
    alone: true,
    fact: () => ({ is: 'says', facts: [['supplement', 'yes']] }),
    means: 'what the row lists is a supplement of the issue',
  },
  {
    key: WITH_SUPPLEMENT,
    pattern: new RegExp(
      [
        String.raw`(?<![\p{L}\d])(\d{1,2})[- ]?(?:${PAGES_OF}|seitige[rn]?) (?:of )?${SUPPLEMENT}(?!\p{L})`,
        String.raw`(?<!\p{L})${SUPPLEMENT}[,:]? (?:of |von |zu |de |\()?(\d{1,2}) ?${PAGES_OF}`,
        String.raw`(?<!\p{L})${PAGES_OF} ?(\d{1,3}(?:\s?[-\u2013]\s?\d{1,3})?)[,:]? (?:are |is |sind |ist |sont )?(?:a |the |eine? |die |une? |le )?${SUPPLEMENT}(?!\p{L})`,
      ].join('|'),
      'iu',
    ),
    fact: ([, before, behind, labels = '']) => ({
      is: 'supplement',
      pages: labels === '' ? { count: Number(before ?? behind) } : { labels: labels.replace(/\s/g, '') },
    }),
    means: 'its pages are not among those of the row where only their number is said, and become a row of their own behind it',
  },
  {
    key: 'misdated',
    pattern: new RegExp(
      String.raw`(?<!\p{L})(?:${DATED}) [(]?(?:the )?${DATE}(?: (?:on|in|auf|sur) (?:the |dem |le )?(?:paper|masthead|papier|kopf))?`,
      'iu',
    ),
    fact: ([, text = '']) => ({ is: 'day', field: 'date printed', text }),
    means: 'the date that is printed on the paper',
  },
  {
    key: 'printed weekday',
    pattern: new RegExp(
      String.raw`(?<!\p{L})(?:(?:${DATED}) (${WEEKDAY})(?!\p{L}|,? \d|,? \p{L}+ \d)|(${WEEKDAY}) (?:on (?:the )?(?:masthead|paper)|im kopf|en tête))`,
      'iu',
    ),
    fact: ([, behind, before]) => ({ is: 'says', facts: [['weekday printed', behind ?? before ?? '']] }),
    means: 'the weekday that is printed on the paper',
  },
  {
    key: 'combined with',
    pattern: new RegExp(
      String.raw`(?:combined|joint|double|doppelnummer|doppelausgabe|zusammen|numéro double|double numéro)(?: issue| number)? (?:with|for|mit|vom|avec|du)(?: dem| le| the)? ${DATE}`,
      'iu',
    ),
    fact: ([, text = '']) => ({ is: 'day', field: 'combined with', text }),
    means: 'the second day of one issue that is dated on two',
  },
  {
    key: 'issue number',
    pattern: new RegExp(
      String.raw`(?<!\p{L})(?:issue|number|no|nr|nummer|numéro)\b\.?(?: is| was| ist| est)?(?: wrongly| in error| falsch| mal)? ?(?:mis-?)?(?:numbered|printed|gedruckt|gezählt|numérotée?|imprimé)(?: as| als| comme)? (\d{1,5})(?!\d)`,
      'iu',
    ),
    fact: ([, printed = '']) => ({ is: 'issue number', printed }),
    means: 'the issue number that is printed on the paper',
  },
  {
    key: 'volume and number',
    pattern: /\b(?:vol(?:ume)?|bd|band|jg|jahrgang|tome)\.? ?([IVXLC]{1,8}|\d{1,4}),? (?:no|nr|number|nummer|n°|numéro)\.? ?(\d{1,6})\b/iu,
    alone: true,
    fact: ([, volume = '', number = '']) => ({
      is: 'says',
      facts: [
        ['volume', volume],
        ['issue number', number],
      ],
    }),
    means: 'volume and number of the issue',
  },
  {
    key: 'section',
    pattern: /\b(?:section|sect\.?|sec\.?|teil) ([A-Z]|\d{1,2}|[IVX]{1,4})(?![\p{L}\d])/iu,
    alone: true,
    fact: ([, section = '']) => ({ is: 'says', facts: [['section', section]] }),
    means: 'the section of the issue to which the page belongs',
  },
  {
    key: 'from reel',
    pattern:
      /\b(?:(?:spliced |taken |inserted )?from (?:reel|roll)|aus (?:der )?(?:rolle|film)|de la bobine) (?:no\.? |nr\.? )?([A-Z]{0,3}\d[\w-]{0,12})/iu,
    alone: true,
    fact: ([, reel = '']) => ({ is: 'says', facts: [['source reel', reel]] }),
    means: 'the reel from which it was spliced in',
  },
  {
    key: 'printed title',
    pattern:
      /(?<!\p{L})(?:(?:title|masthead|titel|titre) (?:is )?(?:printed|gedruckt|imprimé)(?: as| als| comme)?|titled|under the title|unter dem titel|sous le titre)(?: of)?:? ["\u201c\u201e\u00ab]? ?([^"\u201c\u201d\u00bb;]{3,80}?) ?["\u201d\u201c\u00bb]?$/iu,
    fact: ([, title = '']) => ({ is: 'says', facts: [['title printed', title]] }),
    means: 'the title that is printed on the paper',
  },
];
