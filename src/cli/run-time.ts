import { isDay } from '../calendar/civil.js';
import { UserMistake } from '../read/mistake.js';

/** An instant of RFC 3339 section 5.6 to the second or finer, with its offset. */
const INSTANT = /^(\d{4}-\d{2}-\d{2})T([01]\d|2[0-3]):[0-5]\d:[0-5]\d(\.\d{1,9})?(Z|[+-]([01]\d|2[0-3]):[0-5]\d)$/;

/**
 * When the run is said to have been: `--at` (a day or an instant of RFC 3339), else SOURCE_DATE_EPOCH (seconds since 1970, as
 * reproducible builds use it), else the clock. Throws UserMistake where one of them cannot be read.
 */
export function runTime(at: string | undefined): string {
  if (at !== undefined) {
    const day = INSTANT.exec(at)?.[1] ?? at;
    if (!isDay(day)) {
      throw new UserMistake(`--at: ${at} is not a time. Write a day such as 2026-01-31, or a time such as 2026-01-31T09:30:00Z.`);
    }
    return at;
  }
  const epoch = process.env.SOURCE_DATE_EPOCH ?? '';
  if (epoch === '') return clockTime();
  if (!/^\d{1,11}$/.test(epoch)) {
    throw new UserMistake(
      `The environment variable SOURCE_DATE_EPOCH is ${epoch}; it must be a whole number of seconds since 1970. Correct or unset it.`,
    );
  }
  return inSeconds(new Date(Number(epoch) * 1000));
}

/** What the clock says, to the second in UTC. */
export function clockTime(): string {
  return inSeconds(new Date());
}

const inSeconds = (time: Date): string => time.toISOString().replace(/\.\d+Z$/, 'Z');
