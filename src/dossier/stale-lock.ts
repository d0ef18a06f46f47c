import { dayNumber } from '../calendar/civil.js';
import type { LockFile } from '../model/dossier.js';

/** No verification takes so long: in minutes. */
const LONGEST = 12 * 60;

/** A sentence where nobody can be writing any more under this lock: its process has ended on this machine, or it is older than half a day. Null where somebody may be. */
export function staleLock(
  { who, host, pid, since }: LockFile,
  here: { readonly host: string; readonly now: string; readonly runs: (pid: number) => boolean },
): string | null {
  const whose = `the lock of ${who === '' ? 'somebody' : who} on ${host} since ${since}`;
  if (host === here.host && !here.runs(pid)) return `${whose} was left behind: that run has ended. It was taken away.`;
  const age = minutes(here.now) - minutes(since);
  if (age > LONGEST) return `${whose} was left behind: no run takes so long. It was taken away.`;
  return null;
}

/** Minutes of an instant of UTC that is written to the second. */
export function minutes(instant: string): number {
  const [hour = 0, minute = 0] = instant.slice(11, 16).split(':').map(Number);
  return dayNumber(instant.slice(0, 10)) * 24 * 60 + hour * 60 + minute;
}
