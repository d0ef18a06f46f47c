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
