import { FRAME, LABEL, PAGE, type Phrase, word } from './phrase-parts.js';
import { OF_ISSUES } from './phrases-of-issues.js';

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

const OF_FRAMES: readonly Phrase[] = [
  {
    key: 'dup. of',
    pattern: new RegExp(
      String.raw`\b(?:(?:dup(?:l|licate)?\.?|copy) of|doppel von|dublette von|doppelaufnahme (?:von|zu)|second exposure of|zweitaufnahme von|doublon de(?: la)?|double de(?: la)?|deuxième prise de(?: la)?) ${FRAME}`,
      'i',
    ),
    fact: ([, of = '']) => ({ is: 'duplicate', of }),
    means: 'the frame is a duplicate of that frame and is held back',
  },
  {
    key: 'duplicate',
    pattern: word(
      '(?:dup|dupl|duplicate|doppelt(?: verfilmt| aufgenommen)?|doppelaufnahme|zweitaufnahme|dublette|doublon|second exposure|filmed twice|zweimal verfilmt|filmée? deux fois)(?: of| von| de(?: la)?)?',
    ),
    alone: true,
    fact: () => ({ is: 'duplicate', of: null }),
    means: 'the frame is a duplicate of the other one that shows the same page, and is held back',
  },
  {
    key: 'retake of',
    pattern: new RegExp(
      String.raw`\b(?:re-?take|re-?film(?:ed)?|re-?shot|neuaufnahme|nachaufnahme|wiederholungsaufnahme|reprise) (?:of|von|de(?: la)?) ${FRAME}`,
      'i',
    ),
    fact: ([, of = '']) => ({ is: 'retake', of }),
    means: 'the frame was filmed to replace that frame',
  },
  {
    key: 'retake',
    pattern: word(
      '(?:re-?take|re-?filmed|re-?film|re-?shot|neuaufnahme|neu aufgenommen|nachaufnahme|wiederholungsaufnahme|reprise|refilmée?)(?: of| von| de(?: la)?)?',
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
const NO_PAGE = String.raw`(?<!\b(?:issues?|vol|volume|no|whole|reel|frames?|heft|nummer|jahrgang|numéro)\b\.? (?:(?:is|was|wrongly|falsch|mal|in error) )*)`;

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
      'unnumbered|not numbered|unpaginated|no page number|page number (?:is )?(?:missing|wanting|lacking)|(?:ohne|keine) seitenzahl|seitenzahl fehlt|unpaginiert|nicht (?:nummeriert|paginiert)|non (?:numérotée?|paginée?)|sans numéro',
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
      '(?<!(?:page number|seitenzahl|pagination)(?: is)? )(?:wanting|wants|missing|not on film|not filmed|lacking|lacks|fehlt|fehlen|fehlend|nicht verfilmt|nicht auf (?:dem )?film|nicht vorhanden|manque|manquent|manquante?s?|absente?s?)',
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
