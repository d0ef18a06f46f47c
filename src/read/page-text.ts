import { createHash } from 'node:crypto';
import type { PageText, TextLine } from '../model/page-text.js';
import { toUtf8 } from './decode.js';
import { readFileBytes } from './file-bytes.js';
import { attributeText } from './xml-attributes.js';
import { lineOf } from './xml-gate.js';
import { faultInWords, type XmlReader, type XmlScan } from './xml-position.js';
import { scanXml } from './xml-scan.js';
import { decodeReferences } from './xml-text.js';

/** A page's text, or the sentence that says why it cannot be had. */
export type PageTextResult =
  | { readonly ok: true; readonly sha256: string; readonly text: PageText }
  | { readonly ok: false; readonly sha256: string | null; readonly says: string; readonly line: number | null };

/**
 * Reads one ALTO document of any version by local names, strictly and in one pass over its bytes: page text is a hundred times larger than
 * all other documents together, so no tree is built. A word broken at the end of a line counts once, whole, where it begins.
 */
export function readPageText(location: string, document: string): PageTextResult {
  const file = readFileBytes(location);
  if (!file.ok) return { ok: false, sha256: null, says: file.says, line: null };
  const sha256 = createHash('sha256').update(file.bytes).digest('hex');
  const decoded = toUtf8(file.bytes);
  if (!decoded.ok) return { ok: false, sha256, says: decoded.says, line: null };
  const taken = newTaken();
  const fault = scanXml(decoded.utf8, altoReader(taken));
  if (fault !== null) return { ok: false, sha256, says: faultInWords(fault), line: lineOf(decoded.utf8, fault.offset) };
  if (!taken.isAlto) return { ok: false, sha256, says: 'It is not an ALTO document.', line: null };
  const { lines, words, unit, width, height, image, physicalNumber, printedNumber } = taken;
  return {
    ok: true,
    sha256,
    text: { document, lines, words, unit: textOrNull(unit), width, height, image: textOrNull(image), physicalNumber, printedNumber },
  };
}

interface Taken {
  isAlto: boolean;
  readonly lines: TextLine[];
  words: number;
  unit: string;
  image: string;
  width: number | null;
  height: number | null;
  physicalNumber: string | null;
  printedNumber: string | null;
}

function newTaken(): Taken {
  return { isAlto: false, lines: [], words: 0, unit: '', image: '', width: null, height: null, physicalNumber: null, printedNumber: null };
}

function altoReader(taken: Taken): XmlReader {
  let leaf: 'unit' | 'image' | null = null;
  let pages = 0;
  let line: string[] = [];
  let top: number | null = null;
  const endLine = (): void => {
    if (line.length > 0) taken.lines.push({ text: line.join(' '), top });
    line = [];
  };
  return {
    open: (scan, { local }) => {
      if (scan.depth === 1) taken.isAlto = local === 'alto';
      leaf = null;
      if (local === 'String') {
        const word = wordOf(scan);
        if (word === null) return;
        line.push(word);
        taken.words += 1;
      } else if (local === 'TextLine') {
        endLine();
        top = numberOrNull(attributeText(scan, 'VPOS'));
      } else if (local === 'MeasurementUnit') leaf = 'unit';
      else if (local === 'fileName' && taken.image === '') leaf = 'image';
      else if (local === 'Page') {
        pages += 1;
        if (pages === 1) pageFacts(scan, taken);
      }
    },
    text: (scan, from, to, literal) => {
      if (leaf === null) return;
      const piece = scan.bytes.toString('utf8', from, to);
      taken[leaf] += literal ? piece : decodeReferences(piece);
    },
    close: (_scan, { local }) => {
      leaf = null;
      if (local === 'TextLine') endLine();
    },
    instruction: () => undefined,
  };
}

/** The word of a String element; null for the second half of a broken word and for one without content. */
function wordOf(scan: XmlScan): string | null {
  const part = attributeText(scan, 'SUBS_TYPE');
  if (part === 'HypPart2') return null;
  const whole = part === 'HypPart1' ? attributeText(scan, 'SUBS_CONTENT') : null;
  return textOrNull(whole ?? attributeText(scan, 'CONTENT') ?? '');
}

function pageFacts(scan: XmlScan, taken: Taken): void {
  taken.width = numberOrNull(attributeText(scan, 'WIDTH'));
  taken.height = numberOrNull(attributeText(scan, 'HEIGHT'));
  taken.physicalNumber = textOrNull(attributeText(scan, 'PHYSICAL_IMG_NR') ?? '');
  taken.printedNumber = textOrNull(attributeText(scan, 'PRINTED_IMG_NR') ?? '');
}

function textOrNull(text: string): string | null {
  const trimmed = text.trim();
  return trimmed === '' ? null : trimmed;
}

/** Lengths are whole numbers up to ALTO 2.0 and may have decimals from 2.1. */
function numberOrNull(text: string | null): number | null {
  return text !== null && /^-?\d{1,9}(?:\.\d{1,9})?$/.test(text.trim()) ? Number(text) : null;
}
