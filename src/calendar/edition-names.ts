/** Names of editions of a day, in the order in which they come out: common practice, no source. */
const NAMES: readonly (readonly [place: string, names: string])[] = [
  ['1', 'morning, morgen, morgens, morgenblatt, früh, frühausgabe, matin, mat, du matin, am, a m, first, erste, première, premier'],
  [
    '',
    'noon, midday, afternoon, mittag, mittags, mittagsblatt, nachmittag, midi, extra, extrablatt, extraausgabe, special, spécial, final, late, city, country, home, stadt, land',
  ],
  ['2', 'evening, evng, eve, night, abend, abends, abendblatt, spätausgabe, soir, du soir, pm, p m, second, zweite, deuxième, seconde'],
  ['3', 'third, dritte, troisième'],
  ['4', 'fourth, vierte, quatrième'],
  ['5', 'fifth, fünfte, cinquième'],
];

const ORDINAL_WORDS =
  /^(?:first|second|third|fourth|fifth|erste|zweite|dritte|vierte|fünfte|première|premier|seconde|deuxième|troisième|quatrième|cinquième)$/;

const PLACES: ReadonlyMap<string, string> = new Map(
  NAMES.flatMap(([place, names]) => names.split(',').map((name): readonly [string, string] => [name.trim(), place])),
);

/** `1. Ausgabe`, `2nd edition`, `Ed. 2`, `2e éd.`: the number and nothing else. */
const NUMBERED =
  /^(?:(?:edition|édition|edn?|éd|ausgabe|ausg)\.?\s*(?:no\.?|nr\.?|n°)?\s*)?(\d{1,2})(?:st|nd|rd|th|\.|er|[eè]re|re|[eè]me|e)?(?:\s*(?:edition|édition|edn?|éd|ausgabe|ausg)\.?)?$/i;

/** What a text says of an edition: its number where the text counts, and its name where it is one. `place` is the usual number of a name. */
export type EditionSaid =
  | { readonly is: 'number'; readonly number: string }
  | { readonly is: 'name'; readonly place: string | null }
  | { readonly is: 'other' };

/** Reads what people write for an edition. */
export function editionSaid(text: string): EditionSaid {
  const word = text.trim().toLowerCase();
  const numbered = NUMBERED.exec(word)?.[1];
  if (numbered !== undefined) return { is: 'number', number: String(Number(numbered)) };
  const bare = word
    .replace(/\s*(?:edition|édition|edn?\.?|éd\.?|ausgabe|ausg\.?)$/, '')
    .replace(/^(?:édition|edition)\s+/, '')
    .replaceAll('.', ' ')
    .trim();
  const name = PLACES.get(bare) ?? PLACES.get(word.replace(/ausgabe$/, ''));
  if (name === undefined) return { is: 'other' };
  return ORDINAL_WORDS.test(bare) ? { is: 'number', number: name } : { is: 'name', place: name === '' ? null : name };
}

/** True for the name of an edition, such as `Evening` or `Abendausgabe`. */
export function isEditionName(text: string): boolean {
  return editionSaid(text).is === 'name';
}

/** Editions that come out beside another one, and never as the first of a day: common practice, no source. */
const NEVER_FIRST = /^(?:extra|special|sp[ée]cial|final|last|letzte|derni[èe]re)/i;

/**
 * True where an edition of a day that has several has another number than the one that its name on the paper stands for: `First` or `Morning` is 1,
 * `2nd edition` 2, and what is called `Extra` or `Final` is not the first.
 */
export function isMisnamed(edition: number, label: string | null): boolean {
  if (label === null) return false;
  const said = editionSaid(label);
  const named = said.is === 'number' ? said.number : said.is === 'name' ? said.place : null;
  return named === null ? edition === 1 && NEVER_FIRST.test(label.trim()) : Number(named) !== edition;
}
