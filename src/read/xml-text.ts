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

/** Text between two offsets: line ends as one line feed (XML 1.0 section 2.11), references decoded unless it is literal, as in CDATA. */
export function textBetween(bytes: Buffer, from: number, to: number, literal: boolean): string {
  const raw = bytes.toString('utf8', from, to);
  const text = raw.includes('\r') ? raw.replace(/\r\n?/g, '\n') : raw;
  return literal ? text : decodeReferences(text);
}

/** The value of an attribute between two offsets: each line end or tab as a space (XML 1.0 section 3.3.3), references decoded after that. */
export function valueBetween(bytes: Buffer, from: number, to: number): string {
  const raw = bytes.toString('utf8', from, to);
  return decodeReferences(/[\t\n\r]/.test(raw) ? raw.replace(/\r\n|[\t\n\r]/g, ' ') : raw);
}
