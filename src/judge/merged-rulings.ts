import { addDays, isDay } from '../calendar/civil.js';
import type { Ruling } from '../model/rulings.js';

/** A ruling as it stands in a file of the library. */
export interface WrittenRuling extends Ruling {
  /** Where it stands, for sentences: the file, and the sheet and row where there are any. */
  readonly where: string;
}

/** The rulings that hold, and what became of the others. */
export interface MergedRulings {
  readonly rulings: readonly Ruling[];
  /** Findings about which the library contradicts itself: nothing is decided about them, before or now. */
  readonly contested: readonly string[];
  /** A sentence for each ruling that does not count, or of which only the decision does. */
  readonly remarks: readonly string[];
}

/** Puts rulings of several files together. One without a name or a day does not count; where two say different things neither does. Both are said, and so is what another wrote who decided the same. */
export function mergedRulings(written: readonly WrittenRuling[]): MergedRulings {
  const remarks: string[] = [];
  const byFinding = new Map<string, WrittenRuling[]>();
  for (const ruling of written) {
    const lacking = lackingIn(ruling);
    if (lacking !== null) {
      remarks.push(`${ruling.where}: the ruling ${ruling.decision} on ${ruling.finding} does not count: it has ${lacking}.`);
      continue;
    }
    const same = byFinding.get(ruling.finding);
    if (same === undefined) byFinding.set(ruling.finding, [ruling]);
    else same.push(ruling);
  }
  const rulings: Ruling[] = [];
  const contested: string[] = [];
  for (const [finding, found] of byFinding) {
    const [first] = found;
    if (first === undefined) continue;
    const other = found.find(({ decision }) => decision !== first.decision);
    if (other !== undefined) {
      contested.push(finding);
      remarks.push(`${finding} is ruled ${told(first)} and ${told(other)}. Neither counts until one of the two is taken out.`);
      continue;
    }
    // the same was decided twice: the later day stands
    const kept = found.reduce((latest, one) => (one.on > latest.on ? one : latest));
    const { decision, note, by, on } = kept;
    const others = found.filter((one) => one.note !== note || one.by !== by);
    if (others.length > 0)
      remarks.push(`${finding} is ruled ${decision} more than once. Kept: ${wrote(kept)}. Not kept: ${others.map(wrote).join('; ')}.`);
    rulings.push({ finding, decision, note, by, on });
  }
  return { rulings, contested, remarks };
}

/** So many rulings are named one by one. */
const NAMED = 5;

/** One sentence about rulings that are dated later than the day on which they are read; none where there are none. In other time zones it may be tomorrow. */
export function datedLater(rulings: readonly Ruling[], today: string): readonly string[] {
  const later = isDay(today) ? rulings.filter(({ on }) => isDay(on) && on > addDays(today, 1)) : [];
  if (later.length === 0) return [];
  const named = later.slice(0, NAMED).map(({ finding, on }) => `${finding} (${on})`);
  const more = later.length - named.length;
  return [
    `${later.length === 1 ? 'A ruling is' : `${String(later.length)} rulings are`} dated later than the day of this comparison, ${today}; look whether the year is right: ${named.join(', ')}${more > 0 ? ` and ${String(more)} more` : ''}.`,
  ];
}

/** What a ruling lacks to count, in words; null where it lacks nothing. */
export function lackingIn({ by, on }: Pick<Ruling, 'by' | 'on'>): string | null {
  const lacking = [...(by.trim() === '' ? ['no name'] : []), ...(on.trim() === '' ? ['no day'] : [])];
  return lacking.length === 0 ? null : lacking.join(' and ');
}

function told({ decision, by, on, where }: WrittenRuling): string {
  return `${decision} by ${by} on ${on} (${where})`;
}

function wrote({ note, by, on, where }: WrittenRuling): string {
  return `${by} on ${on} (${where}), ${note === '' ? 'without a note' : `"${note}"`}`;
}
