import { normaliseLccn, plainText, titleId } from '../../normalise/labels.js';
import { isDitto } from '../ditto.js';
import { type Ways, wordKey } from '../ways.js';
import { type Asked, asked } from './asked.js';
import { type Laid, textsOf } from './laid.js';

interface Listed {
  readonly id: string;
  readonly name: string;
}

/** What is to be asked of titles: short names of those that a sheet lists, and identifiers where none does. */
export function askedOfTitles(film: readonly Laid[], all: readonly Laid[], ways: Ways): readonly Asked[] {
  const listed = all.filter(({ layout }) => layout.use === 'titles').flatMap(listedIn);
  const texts = film
    .flatMap((laid) => textsOf(laid, 'title').map((one) => ({ ...one, sheet: laid.grid.sheet.name })))
    .filter(({ text }) => !isDitto(text));
  const firsts = new Map(texts.map((one) => [wordKey(one.text), one] as const).toReversed());
  const questions = [...firsts.values()].toReversed().flatMap(({ text, row, sheet }): readonly Asked[] => {
    if (ways.titles.has(wordKey(text)) || isListed(text, listed)) return [];
    const where = `sheet "${sheet}", row ${String(row)}`;
    if (listed.length === 0) {
      // Without a list what looks like an identifier is one.
      if (normaliseLccn(text) !== null || (/\d/.test(text) && !/\s/.test(text))) return [];
      return [
        asked('titles', text, `Which identifier, such as an LCCN, has the title "${text.slice(0, 60)}" (${where})?`, { proposed: null }),
      ];
    }
    const likely = listed.filter(({ name }) => isShortFor(text, name));
    const [only] = likely;
    return [
      asked(
        'titles',
        text,
        `Which title is "${text.slice(0, 60)}" (${where})? ${listed
          .slice(0, 8)
          .map(({ id, name }) => `${id} ${name}`)
          .join(', ')}.`,
        {
          choices: listed.map(({ id }) => id),
          proposed: likely.length === 1 ? (only?.id ?? null) : null,
          sure: likely.length === 1,
        },
      ),
    ];
  });
  if (texts.length > 0 || listed.length > 0 || ways.titles.has('') || film.length === 0) return questions;
  return [
    ...questions,
    asked('titles', '', `The workbook names no title. ${aboveHeads(film)}Which identifier, such as an LCCN, has the paper?`, {
      proposed: idAbove(film),
    }),
  ];
}

/** What stands above the heads of the sheets: often the name of the paper. */
function linesAbove(film: readonly Laid[]): readonly { readonly text: string; readonly row: number; readonly sheet: string }[] {
  return film.flatMap(({ grid, layout }) =>
    grid.sheet.rows
      .slice(0, layout.heads.at)
      .flatMap(({ row, cells }) =>
        cells.flatMap(({ value }) => (/\p{L}{2}/u.test(value) ? [{ text: value.trim(), row, sheet: grid.sheet.name }] : [])),
      ),
  );
}

function aboveHeads(film: readonly Laid[]): string {
  const lines = linesAbove(film).slice(0, 3);
  if (lines.length === 0) return '';
  return `Above the heads stands ${lines.map(({ text, row, sheet }) => `"${text.slice(0, 60)}" (sheet "${sheet}", row ${String(row)})`).join(', ')}. `;
}

/** The one identifier that stands above the heads. */
function idAbove(film: readonly Laid[]): string | null {
  const ids = new Set(linesAbove(film).flatMap(({ text }) => text.split(/[\s,;:()]+/).flatMap((word) => normaliseLccn(word) ?? [])));
  return ids.size === 1 ? ([...ids][0] ?? null) : null;
}

function listedIn({ layout, rows }: Laid): readonly Listed[] {
  const place = (field: string): number => layout.plans.find(({ fields }) => fields.includes(field))?.column ?? -1;
  const [id, title, name] = [place('id'), place('title'), place('name')];
  return rows.flatMap(({ cells }) => {
    const text = (column: number): string => plainText(cells.find((cell) => cell.column === column)?.value ?? '') ?? '';
    const key = text(id) === '' ? text(title) : text(id);
    return key === '' ? [] : [{ id: key, name: text(name) }];
  });
}

function isListed(text: string, listed: readonly Listed[]): boolean {
  const key = titleId(text);
  return listed.some(({ id, name }) => titleId(id) === key || wordKey(name) === wordKey(text));
}

/** Whether every word of the short name is one of the long name, or its initials. */
function isShortFor(text: string, name: string): boolean {
  const own = wordKey(text)
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '' && word !== 'the');
  const whole = wordKey(name)
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '');
  const initials = whole
    .filter((word) => word !== 'the')
    .map((word) => word.charAt(0))
    .join('');
  return own.length > 0 && (own.every((word) => whole.includes(word)) || (own.join('').length >= 2 && own.join('') === initials));
}
