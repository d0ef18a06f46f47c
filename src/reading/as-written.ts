import type { BookCell, WrittenGrid } from '../model/written-grid.js';
import type { SheetProblem, TypedCell, WrittenSheet } from '../model/written-sheet.js';
import type { ColumnPlan, Layout } from './columns.js';
import type { Heads } from './heads.js';
import { isReadOnly, type SheetUse } from './names.js';
import { isOwn } from './ranges.js';
import { type AnyRow, hasCell, isPlain, type PlainRow, type ReadRow } from './read-row.js';

/** The sheet with our columns behind its own heads, so that sentences name what stands above a column. */
export function writtenSheet(
  { file, sheet, book }: WrittenGrid,
  { heads, plans }: Layout,
  read: readonly AnyRow[],
  use: SheetUse,
): WrittenSheet {
  const own = new Map<string, string>();
  for (const { fields, head } of plans) for (const field of fields) if (!own.has(field)) own.set(field, head);
  // What a plain row states has a column of its own.
  const stated = new Set(read.flatMap((row) => (isPlain(row) ? [] : [...row.facts.keys(), ...row.typed.keys()])));
  const fields = [...new Set([...own.keys(), ...stated])].filter((field) => !isReadOnly(field));
  const notes = plans.filter(({ note, head, column }) => note && (head !== '' || read.some((row) => hasCell(row, column))));
  const columns = fields.map((field) => plans.find((plan) => plan.fields.includes(field))?.column ?? -1);
  const places = [...columns, ...notes.map(({ column }) => column)];
  // Most sheets have their columns in our order, as they are written out.
  const asTheyAre = places.every((column, at) => column === at) ? places.length : -1;
  const rows: WrittenSheet['rows'][number][] = [];
  const typed: TypedCell[] = [];
  for (const row of read) {
    const written = isPlain(row) ? plainCells(row, places, asTheyAre) : readCells(row, { fields, columns, notes });
    if (written.cells.some((text) => text.trim() !== '')) rows.push(written);
    for (const cell of isPlain(row) ? plainTyped(row, places) : typedCells(row, fields, notes)) typed.push(cell);
  }
  return {
    file,
    sheet: sheet.name,
    headers: [...fields.map((field) => own.get(field) ?? field), ...notes.map(({ head }) => head)],
    means: [...fields, ...notes.map(() => null)],
    use,
    headRow: heads.row,
    rows,
    problems: twice(plans, file, sheet.name, heads.row),
    warnings: [],
    typed: { cells: typed, book },
  };
}

const NONE: readonly never[] = [];

/** A plain row by the columns of the sheet that is written; `places` are where each of them stands in its own, `asTheyAre` how many there are where all stand there. */
function plainCells({ row, texts }: PlainRow, places: readonly number[], asTheyAre: number): WrittenSheet['rows'][number] {
  return { row: row.row, cells: texts.length === asTheyAre ? texts : places.map((column) => texts[column] ?? ''), copied: NONE };
}

function plainTyped({ row, typed }: PlainRow, places: readonly number[]): readonly TypedCell[] {
  if (typed.length === 0) return NONE;
  return places.flatMap((column, at) =>
    typedCell(
      typed.find((cell) => cell.column === column),
      row.row,
      at,
    ),
  );
}

function readCells(
  row: ReadRow,
  {
    fields,
    columns,
    notes,
  }: { readonly fields: readonly string[]; readonly columns: readonly number[]; readonly notes: readonly ColumnPlan[] },
): WrittenSheet['rows'][number] {
  const cells = [
    ...fields.map((field) => row.facts.get(field) ?? row.typed.get(field)?.value ?? ''),
    ...notes.map(({ column }) => row.cells.get(column)?.value ?? ''),
  ];
  return { row: row.row.row, cells, copied: copiedIn(row, columns), ...madeIn(row, fields) };
}

function typedCells(row: ReadRow, fields: readonly string[], notes: readonly ColumnPlan[]): readonly TypedCell[] {
  return [
    ...(row.typed.size === 0
      ? []
      : fields.flatMap((field, column) => typedCell(row.facts.has(field) ? undefined : row.typed.get(field), row.row.row, column))),
    ...notes.flatMap(({ column }, at) => typedCell(row.cells.get(column), row.row.row, fields.length + at)),
  ];
}

/** The places of the texts of a row that has no cells of its own. */
function madeIn({ cells, facts }: ReadRow, fields: readonly string[]): { readonly made?: readonly number[] } {
  return cells.size > 0 ? {} : { made: fields.flatMap((field, at) => (facts.has(field) ? [at] : [])) };
}

/** The places of the fields whose cell stands in a row above; `columns` are theirs. */
function copiedIn(row: ReadRow, columns: readonly number[]): readonly number[] {
  const copied: number[] = [];
  columns.forEach((column, at) => {
    const cell = row.cells.get(column);
    if (cell !== undefined && !isOwn(cell, row.row.row)) copied.push(at);
  });
  return copied;
}

function typedCell(cell: BookCell | undefined, row: number, column: number): readonly TypedCell[] {
  if (cell === undefined || (cell.kind === 'text' && cell.formula === null)) return [];
  const { address, kind, value, format, formula } = cell;
  return [{ row, column, address, kind, value, format, formula }];
}

/** Two columns that mean the same. */
function twice(plans: readonly ColumnPlan[], file: string, sheet: string, row: number): readonly SheetProblem[] {
  const seen = new Map<string, string>();
  return plans.flatMap(({ fields, head }) =>
    fields.flatMap((field): readonly SheetProblem[] => {
      const before = seen.get(field);
      seen.set(field, before ?? head);
      if (before === undefined) return [];
      const held = `the columns "${before}" and "${head}" (${field})`;
      return [
        { file, sheet, row, column: null, held, says: 'mean the same; keep one of them, or say in the reading file what the other is.' },
      ];
    }),
  );
}

/** A sheet of no record as it stands, so that it can be named with its heads. */
export function plainSheet({ file, sheet }: WrittenGrid, { at, names, row }: Heads): WrittenSheet {
  const rows = sheet.rows.slice(at + 1).map((one) => ({ row: one.row, cells: one.cells.map(({ value }) => value) }));
  return { file, sheet: sheet.name, headers: names, headRow: row, rows, problems: [], warnings: [] };
}
