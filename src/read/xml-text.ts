const NAMED: ReadonlyMap<string, string> = new Map([
  ['amp', '&'],
  ['lt', '<'],
  ['gt', '>'],
  ['quot', '"'],
  ['apos', "'"],
]);

/** Text with its references decoded; they are known to be well-formed. */
export function decodeReferences(text: string): string {
  if (!text.includes('&')) return text;
  return text.replace(/&([^;]{1,62});/g, (whole, name: string) => {
    if (!name.startsWith('#')) return NAMED.get(name) ?? whole;
    return String.fromCodePoint(name.startsWith('#x') ? Number.parseInt(name.slice(2), 16) : Number(name.slice(1)));
  });
}

/** Short texts that were decoded before, each at the place that its bytes give it; another text at the same place takes it over. */
interface Kept {
  readonly bytes: Uint8Array;
  readonly lengths: Uint8Array;
  readonly texts: string[];
}

/** How many are kept, and how long one may be. Documents say the same short things over and over; ends of lines and references are rare in them. */
const KEPT = 4096;
const LONGEST_KEPT = 32;

const keptTexts = newKept();
const keptValues = newKept();

function newKept(): Kept {
  return { bytes: new Uint8Array(KEPT * LONGEST_KEPT), lengths: new Uint8Array(KEPT), texts: new Array<string>(KEPT).fill('') };
}

/** The text of these bytes, by the same string wherever it was met lately: looking it up costs less than decoding it, and one string less room than many. */
function known(kept: Kept, bytes: Buffer, from: number, to: number, decoded: (bytes: Buffer, from: number, to: number) => string): string {
  const length = to - from;
  if (length > LONGEST_KEPT) return decoded(bytes, from, to);
  let hash = length;
  for (let at = from; at < to; at += 1) hash = (Math.imul(hash, 31) + (bytes[at] ?? 0)) | 0;
  const place = (hash ^ (hash >>> 15)) & (KEPT - 1);
  const start = place * LONGEST_KEPT;
  let at = kept.lengths[place] === length ? 0 : -1;
  while (at >= 0 && at < length) at = kept.bytes[start + at] === bytes[from + at] ? at + 1 : -1;
  if (at >= 0) return kept.texts[place] ?? '';
  const text = decoded(bytes, from, to);
  for (let k = 0; k < length; k += 1) kept.bytes[start + k] = bytes[from + k] ?? 0;
  kept.lengths[place] = length;
  kept.texts[place] = text;
  return text;
}

/** Text between two offsets: line ends as one line feed (XML 1.0 section 2.11), references decoded unless it is literal, as in CDATA. */
export function textBetween(bytes: Buffer, from: number, to: number, literal: boolean): string {
  return literal ? lines(bytes, from, to) : known(keptTexts, bytes, from, to, decodedText);
}

function decodedText(bytes: Buffer, from: number, to: number): string {
  return decodeReferences(lines(bytes, from, to));
}

function lines(bytes: Buffer, from: number, to: number): string {
  const raw = bytes.toString('utf8', from, to);
  return raw.includes('\r') ? raw.replace(/\r\n?/g, '\n') : raw;
}

/** The value of an attribute between two offsets: each line end or tab as a space (XML 1.0 section 3.3.3), references decoded after that. */
export function valueBetween(bytes: Buffer, from: number, to: number): string {
  return known(keptValues, bytes, from, to, decodedValue);
}

function decodedValue(bytes: Buffer, from: number, to: number): string {
  const raw = bytes.toString('utf8', from, to);
  return decodeReferences(/[\t\n\r]/.test(raw) ? raw.replace(/\r\n|[\t\n\r]/g, ' ') : raw);
}
