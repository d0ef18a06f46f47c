import { columnLetters, type TextSheet } from './text-sheet.js';

/** Characters of 10 points on a page in landscape, made a little smaller. */
const PAGE_WIDTH = 150;

/** The sheet as the package wrote it, with what it cannot write: view, filter, choices, page, and columns that stay text below the last row. */
export function completedSheet(xml: string, sheet: TextSheet, first: boolean): string {
  const style = / s="(\d+)"/.exec(xml.slice(xml.lastIndexOf('<row')))?.[1];
  const columns = style === undefined ? xml : xml.replace(/<col (?=[^>]*\bmin=)/g, `<col style="${style}" `);
  // A height that is not called custom is a first estimate, which programs mend when the row is edited.
  const rows = columns.replaceAll(' customHeight="1"', '');
  // The order of elements is that of CT_Worksheet (ECMA-376 part 1, annex A.2).
  return put(
    put(rows, /<worksheet [^>]*>/, `${properties()}${view(sheet, first)}`),
    /<\/sheetData>|<sheetData\/>/,
    `${filter(sheet)}${choices(sheet)}${page(sheet)}`,
  );
}

/** The names that a workbook keeps for its sheets: the heads and the first column, which are repeated in print, and the range of the filter. */
export function definedNames(sheets: readonly TextSheet[]): string {
  const names = sheets.flatMap((sheet, index) => {
    if (sheet.heads === null) return [];
    const name = `'${sheet.name}'!`;
    const [, last = ''] = range(sheet).split(':');
    return [
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
  const pane = sheet.heads === null ? '' : '<pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/>';
  return `<sheetViews><sheetView${first ? ' tabSelected="1"' : ''} workbookViewId="0">${pane}</sheetView></sheetViews>`;
}

/** From the first head to the last cell. */
function range({ rows, widths }: TextSheet): string {
  return `A1:${columnLetters(widths.length - 1)}${String(rows.length + 1)}`;
}

function filter(sheet: TextSheet): string {
  return sheet.heads === null ? '' : `<autoFilter ref="${range(sheet)}"/>`;
}

function choices({ choices: offered, rows }: TextSheet): string {
  if (offered === undefined || rows.length === 0) return '';
  const column = columnLetters(offered.column);
  return `<dataValidations count="1"><dataValidation type="list" allowBlank="1" showErrorMessage="1" sqref="${column}2:${column}${String(rows.length + 1)}"><formula1>"${offered.words.join(',')}"</formula1></dataValidation></dataValidations>`;
}

/** A list is far too wide for one page: it goes over several, and no paper is named, since that differs from land to land. */
function page(sheet: TextSheet): string {
  return (
    '<pageMargins left="0.4" right="0.4" top="0.5" bottom="0.6" header="0.3" footer="0.3"/>' +
    `<pageSetup orientation="landscape" fitToWidth="${String(Math.ceil(sheet.widths.reduce((sum, width) => sum + width, 0) / PAGE_WIDTH))}" fitToHeight="0"/>` +
    '<headerFooter><oddFooter>&amp;A, page &amp;P of &amp;N</oddFooter></headerFooter>'
  );
}
