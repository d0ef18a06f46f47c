/** A cell of an invented workbook: text, or what a spreadsheet program makes of what is typed. */
export interface Cell {
  readonly text?: string;
  readonly number?: number;
  /** A day `YYYY-MM-DD` in a cell for days. */
  readonly day?: string;
  /** A formula of OpenFormula, such as `of:=[.A2]+1`. */
  readonly formula?: string;
  readonly wide?: number;
  readonly high?: number;
  readonly colour?: 'yellow';
}

/** A sheet of an invented workbook; null is an empty cell. */
export interface Sheet {
  readonly name: string;
  readonly hidden?: boolean;
  readonly rows: readonly (readonly (string | number | Cell | null)[])[];
}

const NAMES = [
  'office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"',
  'table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"',
  'text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"',
  'style="urn:oasis:names:tc:opendocument:xmlns:style:1.0"',
  'fo="urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0"',
  'number="urn:oasis:names:tc:opendocument:xmlns:datastyle:1.0"',
  'of="urn:oasis:names:tc:opendocument:xmlns:of:1.2"',
];

/** A workbook as flat OpenDocument (OpenDocument 1.3, part 3, section 3.1.2), for LibreOffice to save in the forms that people have. */
export function fodsOf(sheets: readonly Sheet[]): string {
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<office:document ${NAMES.map((name) => `xmlns:${name}`).join(' ')} office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.spreadsheet">`,
    '<office:automatic-styles>',
    '<number:date-style style:name="D"><number:year number:style="long"/><number:text>-</number:text><number:month number:style="long"/><number:text>-</number:text><number:day number:style="long"/></number:date-style>',
    '<style:style style:name="day" style:family="table-cell" style:data-style-name="D"/>',
    '<style:style style:name="yellow" style:family="table-cell"><style:table-cell-properties fo:background-color="#ffff00"/></style:style>',
    '<style:style style:name="shown" style:family="table"><style:table-properties table:display="true"/></style:style>',
    '<style:style style:name="hidden" style:family="table"><style:table-properties table:display="false"/></style:style>',
    '</office:automatic-styles><office:body><office:spreadsheet>',
    ...sheets.map(
      ({ name, hidden, rows }) =>
        `<table:table table:name="${name}" table:style-name="${hidden === true ? 'hidden' : 'shown'}">${rows.map(rowXml).join('')}</table:table>`,
    ),
    '</office:spreadsheet></office:body></office:document>',
  ].join('\n');
}

function rowXml(cells: Sheet['rows'][number]): string {
  return `<table:table-row>${cells.map((cell) => cellXml(cell)).join('')}</table:table-row>`;
}

function cellXml(given: string | number | Cell | null): string {
  if (given === null) return '<table:table-cell/>';
  const cell: Cell = typeof given === 'string' ? { text: given } : typeof given === 'number' ? { number: given } : given;
  const span = `${cell.wide === undefined ? '' : ` table:number-columns-spanned="${String(cell.wide)}"`}${cell.high === undefined ? '' : ` table:number-rows-spanned="${String(cell.high)}"`}`;
  const style = cell.day !== undefined ? ' table:style-name="day"' : cell.colour === undefined ? '' : ` table:style-name="${cell.colour}"`;
  const formula = cell.formula === undefined ? '' : ` table:formula="${cell.formula}"`;
  const escaped = (cell.text ?? '').replaceAll('&', '&amp;').replaceAll('<', '&lt;');
  if (cell.day !== undefined)
    return `<table:table-cell${style}${span}${formula} office:value-type="date" office:date-value="${cell.day}"/>`;
  if (cell.number !== undefined)
    return `<table:table-cell${style}${span}${formula} office:value-type="float" office:value="${String(cell.number)}"/>`;
  return `<table:table-cell${style}${span}${formula} office:value-type="string"><text:p>${escaped}</text:p></table:table-cell>`;
}
