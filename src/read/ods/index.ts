import type { BookSheet, Workbook } from '../../model/written-grid.js';
import { UserMistake } from '../mistake.js';
import { type Archive, openArchive } from '../workbook/archive.js';
import { readPart } from '../workbook/part-events.js';
import { ODF } from './names.js';
import { tableReader } from './table.js';

/** Reads the bytes of an OpenDocument spreadsheet (OASIS OpenDocument 1.3, ISO/IEC 26300). Throws UserMistake. */
export function readOds(bytes: Buffer, file: string): Workbook {
  const archive = openArchive(bytes, file, 'ods');
  const content = archive.part('content.xml');
  if (content === null) throw new UserMistake(`${file}: there is no spreadsheet in the file; save it again as .ods.`);
  const tables = tableReader(file);
  readPart(content, `${file}, part content.xml`, tables, ODF);
  const sheets: readonly BookSheet[] = tables.sheets;
  return { date1904: false, program: programOf(archive), sheets, remarks: [] };
}

/** The program that wrote it, as `meta:generator` names it. */
function programOf(archive: Archive): string | null {
  const bytes = archive.part('meta.xml');
  if (bytes === null) return null;
  let program = '';
  readPart(
    bytes,
    `${archive.file}, part meta.xml`,
    {
      text: (text, path) => {
        if (path.at(-1) === 'generator') program += text;
      },
    },
    ODF,
  );
  return program === '' ? null : program;
}
