import { UserMistake } from '../mistake.js';
import { partKey, readDirectory, type ZipEntry } from './directory.js';
import { unpack } from './unpack.js';

/** The parts of a workbook by name. */
export interface Archive {
  readonly file: string;
  /** The bytes of a part, or null where there is none of that name. Throws UserMistake for one that cannot be unpacked. */
  readonly part: (name: string) => Buffer | null;
}

/** All parts of one workbook together; a bomb may be spread over many of them. */
const LARGEST_WHOLE = 256 * 1024 * 1024;

const PACKED = [0x50, 0x4b, 3, 4];
const COMPOUND = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];
/** The stream that holds an encrypted workbook ([MS-OFFCRYPTO] section 2.3.4.4), as a compound file writes its name. */
const ENCRYPTED = Buffer.from('EncryptedPackage', 'utf16le');

/** Opens the bytes of an .xlsx or .ods file. Throws UserMistake for whatever is none, with what it seems to be and what to do. */
export function openArchive(bytes: Buffer, file: string, kind: 'xlsx' | 'ods' = 'xlsx'): Archive {
  const other = whatElse(bytes);
  if (other !== null) throw new UserMistake(`${file}: ${other}`);
  const directory = readDirectory(bytes);
  if (!directory.ok)
    throw new UserMistake(`${file}: the workbook cannot be opened: ${directory.says}. Copy it again, or save it again as .xlsx.`);
  const entries = new Map(directory.entries.map((entry) => [partKey(entry.name), entry]));
  const foreign = otherPackage(bytes, entries, kind);
  if (foreign !== null) throw new UserMistake(`${file}: ${foreign}`);
  let whole = 0;
  return {
    file,
    part: (name) => {
      const entry = entries.get(partKey(name));
      if (entry === undefined) return null;
      whole += entry.size;
      if (whole > LARGEST_WHOLE)
        throw new UserMistake(`${file}: the parts of the workbook would have more than ${String(LARGEST_WHOLE)} bytes when unpacked.`);
      const unpacked = unpack(bytes, entry);
      if (unpacked.ok) return unpacked.bytes;
      throw new UserMistake(`${file}: the part ${name} of the workbook ${unpacked.says}.`);
    },
  };
}

/** What bytes are that are no archive, in a sentence; null for an archive. */
function whatElse(bytes: Buffer): string | null {
  if (startsWith(bytes, PACKED)) return null;
  if (bytes.length === 0) return 'the file is empty; a workbook was expected. Copy it again.';
  if (startsWith(bytes, COMPOUND))
    return bytes.includes(ENCRYPTED)
      ? 'this workbook is protected by a password; save it without one.'
      : 'this is a workbook of an old spreadsheet format (.xls); save it as .xlsx.';
  if (startsWith(bytes, [0x25, 0x50, 0x44, 0x46]))
    return 'this is a PDF document and no workbook; give the sheet itself, as .xlsx or .csv.';
  const head = bytes.subarray(0, 512);
  if (/^[\s\ufeff]*<(!doctype html|html|table)/i.test(head.toString('utf8')))
    return 'this is a web page under the name of a workbook; open it in a spreadsheet program and save it as .xlsx.';
  return head.includes(0)
    ? 'this is not a workbook: it does not begin as an .xlsx file does. Save it again as .xlsx.'
    : 'this is plain text under the name of a workbook; give it the ending .csv, or save it as .xlsx.';
}

/** What an archive is that holds something else than the workbook its name promises. */
function otherPackage(bytes: Buffer, entries: ReadonlyMap<string, ZipEntry>, kind: 'xlsx' | 'ods'): string | null {
  if (kind === 'ods')
    return entries.has('content.xml')
      ? null
      : 'this is not an OpenDocument spreadsheet under that name; give it its own ending back, or save it as .ods.';
  const mimetype = entries.get('mimetype');
  if (mimetype !== undefined && mimetype.size < 200) {
    const kind = unpack(bytes, mimetype);
    if (kind.ok && kind.bytes.includes('opendocument'))
      return 'this is an OpenDocument file under the name of an .xlsx workbook; give it the ending .ods.';
  }
  if (entries.has('xl/workbook.bin')) return 'this is a binary workbook (.xlsb); save it as .xlsx.';
  if (entries.has('word/document.xml')) return 'this is a text document (.docx) and no workbook.';
  return entries.has('_rels/.rels') || entries.has('xl/workbook.xml')
    ? null
    : 'this is an archive, but there is no workbook in it; give the .xlsx file itself.';
}

function startsWith(bytes: Buffer, start: readonly number[]): boolean {
  return start.every((byte, index) => bytes[index] === byte);
}
