import { inFigures } from '../calendar/figures.js';
import type { Run, RunIssue } from './facts.js';
import { type Irregularity, named, ofIssue, ofTitle } from './item.js';

/** Issues beside each other with the same volume. */
interface Stretch {
  readonly volume: string;
  readonly value: number | null;
  readonly issues: RunIssue[];
}

/** So many issues that each have a volume of their own have their numbers for volumes. */
const LEAST_ISSUES = 6;
const NEARLY_ALL = 0.8;
/** Within so many days no volume passes between two issues (common practice, no source). */
const NO_VOLUME_PASSES = 60;

/**
 * Volumes that stand between issues of another one, go back, or leave one out within days. A volume that begins a few issues early or late shows by
 * nothing: it may begin with any issue.
 */
export function irregularVolumes(run: Run, firsts: readonly RunIssue[]): readonly Irregularity[] {
  const stretches = stretchesOf(firsts);
  const issues = firsts.filter(({ volume }) => volume !== null).length;
  if (issues >= LEAST_ISSUES && stretches.length >= issues * NEARLY_ALL)
    return [
      ofTitle(run, [], {
        code: 'numbering-jumps',
        says: `Nearly every issue of ${run.name} has a volume of its own.`,
        likely: 'These are probably the issue numbers, in the column of the volumes.',
        doubtful: ['volume'],
      }),
    ];
  const right = likeliest(stretches);
  return stretches.flatMap((stretch, at): readonly Irregularity[] => {
    if (right.has(stretch)) return [];
    const [before, after] = [
      stretches.slice(0, at).findLast((one) => right.has(one)),
      stretches.slice(at + 1).find((one) => right.has(one)),
    ];
    return stretch.issues.slice(0, 1).map((issue) => strayItem(issue, stretch, before?.volume ?? null, after?.volume ?? null));
  });
}

function stretchesOf(firsts: readonly RunIssue[]): readonly Stretch[] {
  const found: Stretch[] = [];
  for (const issue of firsts) {
    if (issue.volume === null) continue;
    const last = found.at(-1);
    if (last?.volume === issue.volume) last.issues.push(issue);
    else found.push({ volume: issue.volume, value: inFigures(issue.volume), issues: [issue] });
  }
  return found;
}

/** The stretches that follow each other rightly and hold most issues. Volumes that are no numbers are left alone. */
function likeliest(stretches: readonly Stretch[]): ReadonlySet<Stretch> {
  const best: { readonly held: number; readonly before: number }[] = [];
  for (const [at, stretch] of stretches.entries()) {
    let [held, before] = [0, -1];
    for (let back = 0; back < at; back += 1) {
      const one = stretches[back];
      const sum = best[back]?.held ?? 0;
      if (one !== undefined && sum > held && follows(one, stretch)) [held, before] = [sum, back];
    }
    best.push({ held: held + stretch.issues.length, before });
  }
  let at = best.reduce((most, { held }, i) => (held > (best[most]?.held ?? 0) ? i : most), 0);
  const right = new Set(stretches.filter(({ value }) => value === null));
  while (at >= 0) {
    const stretch = stretches[at];
    if (stretch !== undefined) right.add(stretch);
    at = best[at]?.before ?? -1;
  }
  return right;
}

function follows(before: Stretch, after: Stretch): boolean {
  if (before.value === null || after.value === null) return true;
  const days = (after.issues[0]?.number ?? 0) - (before.issues.at(-1)?.number ?? 0);
  const step = after.value - before.value;
  return step === 0 || step === 1 || (step > 1 && days >= step * NO_VOLUME_PASSES);
}

function strayItem(issue: RunIssue, { volume, issues }: Stretch, before: string | null, after: string | null): Irregularity {
  const around =
    before !== null && after !== null
      ? before === after
        ? `between issues of volume ${before}`
        : `between volumes ${before} and ${after}`
      : before !== null
        ? `behind volume ${before}`
        : `in front of volume ${after ?? ''}`;
  const days = issues.map(({ day }) => day);
  const item = ofIssue(issues.length === 1 ? issue : { ...issue, shots: issues.flatMap(({ shots }) => shots) }, {
    code: 'numbering-jumps',
    says: `${issues.length === 1 ? `The issue of ${issue.day} has` : `The issues of ${named('day', days).replace(/^days? /, '')} have`} the volume ${volume}, ${around}.`,
    likely: before !== null && (after === null || after === before) ? `${before} was probably meant.` : null,
    doubtful: ['volume'],
  });
  return item;
}
