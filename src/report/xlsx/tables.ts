import { writeWorkbook } from './write.js';

const NARROWEST = 8;
const WIDEST = 40;
/** So many rows are looked at for the width of a column. */
const LOOKED_AT = 200;

/** Writes tables as an .xlsx file, a sheet for each, to the letter: reading gives back the same texts. */
export async function writeTables(
  tables: readonly { readonly name: string; readonly heads: readonly string[]; readonly rows: readonly (readonly string[])[] }[],
): Promise<Uint8Array> {
  return writeWorkbook(
    tables.map((table) => ({
      ...table,
      widths: table.heads.map((head, column) => {
        const longest = table.rows.slice(0, LOOKED_AT).reduce((most, cells) => Math.max(most, (cells[column] ?? '').length), head.length);
        return Math.min(WIDEST, Math.max(NARROWEST, longest + 2));
      }),
    })),
  );
}
