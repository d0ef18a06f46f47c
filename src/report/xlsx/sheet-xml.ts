import { withEntities } from '../markup-text.js';
import { columnLetters, type TextSheet } from './text-sheet.js';

/** Characters of 10 points on a page in landscape, made a little smaller. */
const PAGE_WIDTH = 150;

/** The sheet as the package wrote it, with what it cannot write: view, filter, choices, page, and columns that stay text below the last row. */
export function completedSheet(xml: string, sheet: TextSheet, first: boolean, firstRule: number): string {
  // In a sheet of plain lines the last row says nothing of the columns.
  const style = sheet.heads === null ? undefined : / s="(\d+)"/.exec(xml.slice(xml.lastIndexOf('<row')))?.[1];
  const columns = style === undefined ? xml : xml.replace(/<col (?=[^>]*\bmin=)/g, `<col style="${style}" `);
  // A height that is not called custom is a first estimate, which programs mend when the row is edited.
  const rows = columns.replaceAll(' customHeight="1"', '');
  // The order of elements is that of CT_Worksheet (ECMA-376 part 1, annex A.2).
  return put(
    put(rows, /<worksheet [^>]*>/, `${properties()}${view(sheet, first)}`),
    /<\/sheetData>|<sheetData\/>/,
    `${filter(sheet)}${rules(sheet, firstRule)}${choices(sheet)}${page(sheet)}${textNumbers(sheet)}`,
  );
}

/** The names that a workbook keeps for its sheets: the heads and the first column, which are repeated in print, and the range of the filter. */
export function definedNames(sheets: readonly TextSheet[]): string {
  const names = sheets.flatMap((sheet, index) => {
    const name = `'${sheet.name}'!`;
    if (sheet.heads === null) {
      const { rows } = sheet.kept ?? { rows: 0 };
      const line = `$${String(rows)}`;
      return rows === 0
        ? []
        : [`<definedName name="_xlnm.Print_Titles" localSheetId="${String(index)}">${name}${line}:${line}</definedName>`];
    }
    const [, last = ''] = range(sheet).split(':');
    const named = (sheet.names ?? []).map(({ name: own, column }) => {
      const letters = columnLetters(column);
      return `<definedName name="${own}">${name}$${letters}$2:$${letters}$${String(lastRow(sheet))}</definedName>`;
    });
    return [
      ...named,
      `<definedName name="_xlnm._FilterDatabase" localSheetId="${String(index)}" hidden="1">${name}$A$1:${last.replace(/^([A-Z]+)(\d+)$/, '$$$1$$$2')}</definedName>`,
      `<definedName name="_xlnm.Print_Titles" localSheetId="${String(index)}">${name}$A:$A,${name}$1:$1</definedName>`,
    ];
  });
  return names.length === 0 ? '' : `<definedNames>${names.join('')}</definedNames>`;
}

/** Puts `more` behind the place that must be there. */
function put(xml: string, place: RegExp, more: string): string {
  if (!place.test(xml)) throw new Error(`The sheet as it was written has no ${place.source}.`);
  return xml.replace(place, (found) => found + more);
}

function properties(): string {
  return '<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>';
}

function view(sheet: TextSheet, first: boolean): string {
  const { columns, rows } = sheet.kept ?? { columns: 0, rows: sheet.heads === null ? 0 : 1 };
  const split = `${columns === 0 ? '' : ` xSplit="${String(columns)}"`}${rows === 0 ? '' : ` ySplit="${String(rows)}"`}`;
  const active = columns === 0 ? 'bottomLeft' : rows === 0 ? 'topRight' : 'bottomRight';
  const pane =
    split === '' ? '' : `<pane${split} topLeftCell="${columnLetters(columns)}${String(rows + 1)}" activePane="${active}" state="frozen"/>`;
  return `<sheetViews><sheetView${first ? ' tabSelected="1"' : ''} workbookViewId="0">${pane}</sheetView></sheetViews>`;
}

/** From the first head to the last cell. */
function range({ rows, widths }: TextSheet): string {
  return `A1:${columnLetters(widths.length - 1)}${String(rows.length + 1)}`;
}

function filter(sheet: TextSheet): string {
  return sheet.heads === null ? '' : `<autoFilter ref="${range(sheet)}"/>`;
}

/** The last row that is made ready, heads counted. */
function lastRow({ rows, spare = 0 }: TextSheet): number {
  return rows.length + 1 + spare;
}

function choices(sheet: TextSheet): string {
  const stated = sheet.choices ?? [];
  const offered = 'column' in stated ? [stated] : stated;
  if (offered.length === 0 || lastRow(sheet) < 2) return '';
  const each = offered.map(({ column, words, others = false }) => {
    const letters = columnLetters(column);
    return `<dataValidation type="list" allowBlank="1"${others ? '' : ' showErrorMessage="1"'} sqref="${letters}2:${letters}${String(lastRow(sheet))}"><formula1>"${words.join(',')}"</formula1></dataValidation>`;
  });
  return `<dataValidations count="${String(each.length)}">${each.join('')}</dataValidations>`;
}

/** `firstRule`: the place of the first look of this sheet among those of the workbook. */
function rules({ rules: all = [] }: TextSheet, firstRule: number): string {
  return all
    .map(
      ({ range: cells, formula }, at) =>
        `<conditionalFormatting sqref="${cells}"><cfRule type="expression" dxfId="${String(firstRule + at)}" priority="${String(at + 1)}" stopIfTrue="1"><formula>${withEntities(formula)}</formula></cfRule></conditionalFormatting>`,
    )
    .join('');
}

/** The looks of all rules, in their order (ECMA-376 part 1, 18.8.14 and 18.8.15). */
export function ruleLooks(sheets: readonly TextSheet[]): string {
  const looks = sheets.flatMap(({ rules: all = [] }) => all);
  if (looks.length === 0) return '';
  const colour = (text: string): string => `FF${text.slice(1).toUpperCase()}`;
  const each = looks.map(
    ({ fill, ink, sign }, at) =>
      `<dxf><font><b/><color rgb="${colour(ink)}"/></font><numFmt numFmtId="${String(FIRST_OWN_FORMAT + at)}" formatCode="0&quot;${sign}&quot;"/><fill><patternFill patternType="solid"><fgColor rgb="${colour(fill)}"/><bgColor rgb="${colour(fill)}"/></patternFill></fill></dxf>`,
  );
  return `<dxfs count="${String(each.length)}">${each.join('')}</dxfs>`;
}

/** Number formats of a file's own begin at 164 (ECMA-376 part 1, 18.8.30); some are left to the package. */
const FIRST_OWN_FORMAT = 200;

/** Numbers are text on purpose: without this each would be marked as a mistake. */
function textNumbers(sheet: TextSheet): string {
  if (sheet.heads === null || sheet.spare === undefined) return '';
  return `<ignoredErrors><ignoredError sqref="A1:${columnLetters(sheet.widths.length - 1)}${String(lastRow(sheet))}" numberStoredAsText="1"/></ignoredErrors>`;
}

/** A list is far too wide for one page: it goes over several, and no paper is named, since that differs from land to land. */
function page(sheet: TextSheet): string {
  const width = sheet.widths.reduce((sum, one) => sum + one, 0);
  return (
    // What has columns is read by rows, and filled in on paper too.
    (sheet.heads === null ? '' : '<printOptions gridLines="1"/>') +
    '<pageMargins left="0.4" right="0.4" top="0.5" bottom="0.6" header="0.3" footer="0.3"/>' +
    `<pageSetup orientation="landscape" fitToWidth="${sheet.onePageWide === true ? '1' : String(Math.ceil(width / PAGE_WIDTH))}" fitToHeight="0"/>` +
    '<headerFooter><oddFooter>&amp;A, page &amp;P of &amp;N</oddFooter></headerFooter>'
  );
}
