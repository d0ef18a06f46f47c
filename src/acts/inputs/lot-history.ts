import type { SeriesLot } from '../../model/sample.js';
import { parseJsonLoosely } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { readRegularFile } from '../../read/regular-file.js';

const LARGEST = 64 * 1024 * 1024;
const FLAGS = ['betweenNumbers', 'irregular', 'resumed'] as const;

/** Reads the lots of a vendor in their order from the list `lots` of a ledger: of each whether it was `accepted`, and what else the switching rules ask. Throws UserMistake. */
export async function readLotHistory(path: string): Promise<readonly SeriesLot[]> {
  const value = parseJsonLoosely(await readRegularFile(path, LARGEST), path);
  const lots: unknown = fieldOf(value, 'lots');
  if (!Array.isArray(lots))
    throw new UserMistake(
      `${path}: there is no list "lots" in this file. The lots so far are needed here: {"lots": [{"accepted": true}, ...]}, as the ledger of one vendor in JSON has them.`,
    );
  return lots.map((lot, at) => lotOf(lot, `${path}, lot ${String(at + 1)}`));
}

function lotOf(lot: unknown, where: string): SeriesLot {
  const accepted = fieldOf(lot, 'accepted');
  if (typeof accepted !== 'boolean') throw new UserMistake(`${where}: "accepted" must be true or false.`);
  const flags = FLAGS.filter((flag) => fieldOf(lot, flag) !== undefined);
  const wrong = flags.find((flag) => typeof fieldOf(lot, flag) !== 'boolean');
  if (wrong !== undefined) throw new UserMistake(`${where}: "${wrong}" must be true or false, or be left out.`);
  return { accepted, ...Object.fromEntries(flags.filter((flag) => fieldOf(lot, flag) === true).map((flag) => [flag, true])) };
}

function fieldOf(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null && Object.hasOwn(value, name) ? Reflect.get(value, name) : undefined;
}
