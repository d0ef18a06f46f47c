import type { BookSheet, Workbook } from '../../model/written-grid.js';
import { UserMistake } from '../mistake.js';
import { type Archive, openArchive } from './archive.js';
import { readCells } from './cells.js';
import { readComments, withComments } from './comments.js';
import { readCellStyles } from './number-format.js';
import { isTrue, readPart } from './part-events.js';
import { type Relation, relationsOf } from './relations.js';
import { readSharedStrings } from './shared-strings.js';

/** Reads the bytes of an .xlsx file, transitional or strict (ECMA-376, ISO/IEC 29500). Throws UserMistake. */
export function readWorkbook(bytes: Buffer, file: string): Workbook {
  const archive = openArchive(bytes, file);
  const top = relationsOf(archive, '');
  const main = target(top, 'officeDocument') ?? 'xl/workbook.xml';
  const part = archive.part(main);
  if (part === null) throw new UserMistake(`${file}: there is no workbook in the file; save it again as .xlsx.`);
  const { date1904, tabs } = readTabs(part, `${file}, part ${main}`);
  const relations = relationsOf(archive, main);
  const sources = {
    strings: readSharedStrings(archive, target(relations, 'sharedStrings')),
    styles: readCellStyles(archive, target(relations, 'styles')),
  };
  const sheets = tabs.flatMap(({ name, hidden, id }): readonly BookSheet[] => {
    const relation = relations.find((one) => one.id === id);
    // Sheets of charts and dialogues have no cells.
    if (relation !== undefined && relation.type !== 'worksheet') return [];
    const cells = relation === undefined ? null : archive.part(relation.target);
    if (cells === null)
      throw new UserMistake(`${file}: the sheet "${name}" is listed in the workbook and is not in it; save the workbook again.`);
    const comments = readComments(archive, target(relationsOf(archive, relation?.target ?? ''), 'comments'));
    const read = readCells(cells, `${file}, sheet ${name}`, sources);
    return [{ name, hidden, ...read, rows: withComments(read.rows, comments) }];
  });
  return { date1904, program: programOf(archive, top), sheets, remarks: [] };
}

interface Tab {
  readonly name: string;
  readonly hidden: boolean;
  readonly id: string;
}

function readTabs(bytes: Buffer, where: string): { readonly date1904: boolean; readonly tabs: readonly Tab[] } {
  const tabs: Tab[] = [];
  let date1904 = false;
  readPart(bytes, where, {
    open: ({ name, attribute }, path) => {
      if (name === 'workbookPr') date1904 = isTrue(attribute('date1904'));
      if (name === 'sheet' && path.at(-2) === 'sheets')
        tabs.push({ name: attribute('name') ?? '', hidden: /hidden$/i.test(attribute('state') ?? ''), id: attribute('r:id') ?? '' });
    },
  });
  return { date1904, tabs };
}

function programOf(archive: Archive, top: readonly Relation[]): string | null {
  const name = target(top, 'extended-properties') ?? target(top, 'extendedProperties');
  const bytes = name === null ? null : archive.part(name);
  if (bytes === null) return null;
  let program = '';
  readPart(bytes, `${archive.file}, part ${name ?? ''}`, {
    text: (text, path) => {
      if (path.at(-1) === 'Application') program += text;
    },
  });
  return program === '' ? null : program;
}

function target(relations: readonly Relation[], type: string): string | null {
  return relations.find((relation) => relation.type === type)?.target ?? null;
}
