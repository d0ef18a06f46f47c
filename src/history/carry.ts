import type { Finding } from '../model/findings.js';

/** What the earlier result says of a finding that is still there. */
type Carried = Pick<Finding, 'id' | 'ruling' | 'answer' | 'status' | 'collation' | 'return' | 'count'>;

/**
 * Gives each finding its status and, where nothing newer is said, the ruling and the answer of the earlier delivery. A ruling was made on
 * what stood there: it holds only as long as both readings and the number of frames are the same. What was not carried over is said.
 */
export function carryOver<T extends Carried>(
  findings: readonly T[],
  before: ReadonlyMap<string, Finding>,
  delivery: number,
  contested: ReadonlySet<string>,
): { readonly findings: readonly T[]; readonly remarks: readonly string[] } {
  const remarks: string[] = [];
  const kept: string[] = [];
  const result = findings.map((finding): T => {
    const earlier = before.get(finding.id);
    if (earlier === undefined) return { ...finding, status: 'new' };
    const told = { ...finding, status: 'open' as const, answer: finding.answer ?? earlier.answer };
    const { ruling } = earlier;
    if (finding.ruling !== null || ruling === null || contested.has(finding.id)) return told;
    if (ruling.by.trim() === '' || ruling.on.trim() === '') {
      remarks.push(`The earlier ruling on ${finding.id} (${ruling.decision}) has no name or no day and was not carried over.`);
      return told;
    }
    if (sameReadings(finding, earlier)) {
      kept.push(`${finding.id} (${ruling.decision})`);
      return { ...told, ruling };
    }
    remarks.push(
      `The ruling on ${finding.id} (${ruling.decision}, ${ruling.by}) was made on another reading; what stands there has changed since, so decide again.`,
    );
    return told;
  });
  if (kept.length > 0) remarks.unshift(`Rulings carried over from delivery ${String(delivery)}: ${kept.join(', ')}.`);
  return { findings: result, remarks };
}

function sameReadings(a: Carried, b: Carried): boolean {
  return a.collation === b.collation && a.return === b.return && a.count === b.count;
}
