import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { XMLParser } from 'fast-xml-parser';
import { newFolder } from './command.js';

/** Whether LibreOffice is there, which opens, fills in and saves workbooks with code that has nothing in common with ours. */
export const OFFICE = spawnSync('soffice', ['--version'], { encoding: 'utf8' }).status === 0;

const profile = newFolder();

/** Opens a file in LibreOffice and saves it in another form; gives the folder of what was made. */
export function savedInOffice(path: string, to: string): string {
  const out = newFolder();
  const args = ['--headless', `-env:UserInstallation=file://${profile}/office`, '--convert-to', to, '--outdir', out, path];
  const { stderr, status } = spawnSync('soffice', args, { encoding: 'utf8' });
  if (status !== 0 || stderr.includes('Error')) throw new Error(stderr);
  return out;
}

/** A cell that is filled in: by the name of its sheet, the head of its column, and its row, where 2 is the first below the heads. */
export interface Filled {
  readonly sheet: string;
  readonly column: string;
  readonly row: number;
  readonly text: string;
}

type Node = { ':@'?: Record<string, string> } & Record<string, unknown>;

const options = { preserveOrder: true, ignoreAttributes: false, attributeNamePrefix: '', trimValues: false, parseTagValue: false } as const;

/** Writes texts into cells of a flat OpenDocument spreadsheet, as LibreOffice saved it (ODF 1.3 part 3, 9.1); gives the path of the new file. */
export function filledIn(path: string, cells: readonly Filled[]): string {
  const tree = new XMLParser(options).parse(readFileSync(path, 'utf8')) as Node[];
  const tables = new Map(all(tree, 'table:table').map((table) => [table[':@']?.['table:name'] ?? '', rowsOf(table)]));
  for (const { sheet, column, row, text } of cells) {
    const rows = tables.get(sheet) ?? [];
    const at = textsOf(rows[0]).indexOf(column);
    const target = rows[row - 1];
    const cell = target === undefined || at < 0 ? undefined : cellsOf(target)[at];
    if (cell === undefined) throw new Error(`There is no cell ${column} in row ${String(row)} of ${sheet}.`);
    cell['table:table-cell'] = [{ 'text:p': [{ '#text': text }] }];
    cell[':@'] = { ...cell[':@'], 'office:value-type': 'string', 'calcext:value-type': 'string' };
  }
  const out = join(newFolder(), basename(path));
  mkdirSync(join(out, '..'), { recursive: true });
  writeFileSync(out, tree.map(written).join(''));
  return out;
}

/** An element as XML. */
function written(node: Node): string {
  const safe = (text: unknown): string => String(text).replace(/[&<>"]/g, (sign) => `&#${String(sign.codePointAt(0))};`);
  if ('#text' in node) return safe(node['#text']);
  const [name = '', inside] = Object.entries(node).find(([key]) => key !== ':@') ?? [];
  const attributes = Object.entries(node[':@'] ?? {}).map(([key, value]) => ` ${key}="${safe(value)}"`);
  if (name.startsWith('?')) return `<${name}${attributes.join('')}?>`;
  return `<${name}${attributes.join('')}>${(inside as Node[]).map(written).join('')}</${name}>`;
}

/** Elements of a name, wherever they stand. */
function all(nodes: readonly Node[], name: string): readonly Node[] {
  return nodes.flatMap((node) =>
    Object.entries(node).flatMap(([key, inside]) => {
      if (key === ':@' || !Array.isArray(inside)) return [];
      return [...(key === name ? [node] : []), ...all(inside as Node[], name)];
    }),
  );
}

/** The rows of a table, each by itself: what is said to repeat is written out, as far as a sheet of ours reaches. */
function rowsOf(table: Node): Node[] {
  return all([table], 'table:table-row').flatMap((row) => {
    const times = Number(row[':@']?.['table:number-rows-repeated'] ?? 1);
    if (times > 1) return [];
    row['table:table-row'] = (row['table:table-row'] as Node[]).flatMap((cell) => {
      const count = Number(cell[':@']?.['table:number-columns-repeated'] ?? 1);
      if (count === 1 || count > 100) return [cell];
      const attributes = Object.entries(cell[':@'] ?? {}).filter(([name]) => name !== 'table:number-columns-repeated');
      return Array.from({ length: count }, () => ({ ...structuredClone(cell), ':@': Object.fromEntries(attributes) }));
    });
    return [row];
  });
}

function cellsOf(row: Node): Node[] {
  return (row['table:table-row'] as Node[]).filter((cell) => 'table:table-cell' in cell);
}

function textsOf(row: Node | undefined): readonly string[] {
  return row === undefined ? [] : cellsOf(row).map(textIn);
}

function textIn(node: unknown): string {
  if (Array.isArray(node)) return node.map(textIn).join('');
  if (typeof node !== 'object' || node === null) return '';
  return Object.entries(node)
    .map(([key, inside]) => (key === ':@' ? '' : key === '#text' ? String(inside).trim() : textIn(inside)))
    .join('');
}
