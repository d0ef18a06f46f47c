import type { Findings } from '../model/findings.js';
import { FORMATS, type FormatName, type RenderOptions, type Report } from './formats.js';

export { CORRECTIONS_FILE, renderCorrections } from './corrections.js';
export { FORMATS, type Format, type FormatName, type RenderOptions, type Report } from './formats.js';
export { RULINGS_FILE, renderRulings } from './rulings-sheet.js';

/** Writes a saved result in one format: text to be stored as UTF-8, or bytes. Same result, same bytes. */
export async function render(findings: Findings, format: FormatName, options: RenderOptions = {}): Promise<Report> {
  const found = FORMATS.find((known) => known.name === format);
  if (found === undefined) throw new TypeError(`There is no format ${format}.`);
  const write = await found.load();
  return write(findings, options);
}
