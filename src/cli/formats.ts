import { UserMistake } from '../read/mistake.js';
import { FORMATS, type FormatName } from '../report/formats.js';

/** The names of the formats, for help and messages. */
export const FORMAT_NAMES: readonly string[] = FORMATS.map((format) => format.name);

/**
 * The formats asked for, in the order of the list, each once: `csv`, `text,json` or several words. Without a wish: text for the
 * standard output, all for a folder. Throws UserMistake for an unknown name, or for several where only one can be printed.
 */
export function chosenFormats(wishes: readonly string[] | undefined, toFolder: boolean): readonly FormatName[] {
  if (wishes === undefined) return toFolder ? FORMATS.map((format) => format.name) : ['text'];
  const names = wishes.flatMap((wish) => wish.split(',')).filter((name) => name !== '');
  const unknown = names.filter((name) => !FORMAT_NAMES.includes(name));
  if (unknown.length > 0 || names.length === 0) {
    const what = unknown.length === 0 ? '--format names no format' : `--format: there is no format ${unknown.join(', ')}`;
    throw new UserMistake(`${what}. There are ${FORMAT_NAMES.join(', ')}.`);
  }
  const chosen = FORMATS.map((format) => format.name).filter((name) => names.includes(name));
  if (!toFolder && chosen.length > 1) {
    throw new UserMistake('Only one format can be printed at a time. Name one with --format, or give --out with a folder for several.');
  }
  return chosen;
}
