import { codeEntry } from '../catalogue/codes.js';
import type { ResolvedAgreement } from '../model/agreement.js';
import type { Decision, Finding, Severity, Unchecked } from '../model/findings.js';

export const SEVERITIES: readonly Severity[] = ['critical', 'major', 'minor', 'note'];

/** The decision and the sentences that give its reasons, in the order of contract: rework, cannot decide, corrections, accept. */
export function verdictOf(
  findings: readonly Finding[],
  unchecked: readonly Unchecked[],
  agreement: ResolvedAgreement,
  deliveredPages: number,
): { readonly decision: Decision; readonly reasons: readonly string[] } {
  const counting = findings.filter((finding) => counts(finding));
  // what the library ruled to be the vendor's is the vendor's, whichever side was likelier wrong
  const vendors = counting.filter((finding) => finding.ruling !== null || (finding.cause !== 'collation' && finding.doubts === undefined));
  const reasons: string[] = [];
  const critical = vendors.filter((finding) => finding.severity === 'critical');
  const others = counting.filter((finding) => finding.severity === 'critical').length - critical.length;
  if (critical.length > 0)
    reasons.push(`${amount(critical.length, 'critical finding')}: ${whatIsWrong(critical)}.${notTheVendors(others)}`);
  const rescans = vendors.filter((finding) => finding.rescan === 'yes' && finding.severity !== 'note');
  if (rescans.length > 0) reasons.push(`${amount(rescans.length, 'finding')} may need a rescan: ${whatIsWrong(rescans)}.`);
  const major = vendors.filter((finding) => finding.severity === 'major');
  const majorPages = pagesUnder(major);
  if (majorPages > agreement.tolerances.majorShare * deliveredPages) {
    reasons.push(
      `Major findings touch ${share(majorPages, deliveredPages)}, more than the ${percent(agreement.tolerances.majorShare)} agreed.`,
    );
  }
  if (reasons.length > 0) return { decision: 'return-for-rework', reasons };
  const missing = unchecked.filter((entry) => entry.required);
  for (const entry of missing) reasons.push(`A required check was not made: ${entry.what} (${entry.why.replace(/\.$/, '')}).`);
  const unruled = counting.filter(({ ruling, severity }) => ruling === null && (severity === 'critical' || severity === 'major'));
  const own = unruled.filter(({ cause, doubts }) => cause === 'collation' && doubts === undefined);
  if (own.length > 0)
    reasons.push(
      `${amount(own.length, 'finding')} may be the record's own mistake and ${own.length === 1 ? 'needs' : 'need'} a ruling: ${whatIsWrong(own)}.`,
    );
  const doubtful = unruled.filter(({ doubts }) => doubts !== undefined);
  if (doubtful.length > 0)
    reasons.push(
      `${amount(doubtful.length, 'finding')} ${doubtful.length === 1 ? 'rests' : 'rest'} on what the record itself leaves in doubt and ${doubtful.length === 1 ? 'needs' : 'need'} a ruling: ${whatIsWrong(doubtful)}.`,
    );
  if (reasons.length > 0) return { decision: 'cannot-decide', reasons };
  if (major.length > 0) reasons.push(`${amount(major.length, 'major finding')} to be corrected: ${whatIsWrong(major)}.`);
  const minor = vendors.filter((finding) => finding.severity === 'minor');
  const minorPages = pagesUnder(minor);
  if (minorPages > agreement.tolerances.minorShare * deliveredPages) {
    reasons.push(
      `Minor findings touch ${share(minorPages, deliveredPages)}, more than the ${percent(agreement.tolerances.minorShare)} agreed.`,
    );
  }
  if (reasons.length > 0) return { decision: 'accept-with-corrections', reasons };
  const notes = findings.length - counting.length;
  return {
    decision: 'accept',
    reasons: [
      findings.length === 0
        ? 'The return agrees with the collation record.'
        : counting.length === 0
          ? `Nothing that counts: ${amount(notes, 'finding')} for information.`
          : `${amount(counting.length, 'finding')} within what is agreed.`,
    ],
  };
}

/** Film irregularities and notes do not count, unless the library rules that the vendor corrects them; what was ruled accepted or the record's mistake no longer does. */
export function counts(finding: Finding): boolean {
  if (finding.ruling !== null) return finding.ruling.decision === 'vendor-corrects' && finding.severity !== 'note';
  return finding.cause !== 'film' && finding.severity !== 'note';
}

/** What is said of critical findings that are not held against the return, so that the numbers add up. */
function notTheVendors(count: number): string {
  if (count === 0) return '';
  return count === 1
    ? " One more may be the record's own mistake and does not weigh here."
    : ` ${String(count)} more may be the record's own mistakes and do not weigh here.`;
}

function pagesUnder(findings: readonly Finding[]): number {
  return findings.reduce((sum, finding) => sum + (finding.weighs ?? Math.max(1, finding.count)), 0);
}

/** Kinds of findings that a reason names; the list below has all of them. */
const NAMED = 4;

/** What is wrong, in the words of the catalogue, the commonest kinds first. */
function whatIsWrong(findings: readonly Finding[]): string {
  const list = new Map<string, number>();
  for (const { code } of findings) list.set(code, (list.get(code) ?? 0) + 1);
  const kinds = [...list]
    .toSorted(([, a], [, b]) => b - a)
    .map(([code, count]) => `${titleOf(code)}${count === 1 ? '' : count === 2 ? ' (twice)' : ` (${String(count)} times)`}`);
  const named = kinds.length > NAMED + 1 ? [...kinds.slice(0, NAMED), `${String(kinds.length - NAMED)} other kinds, listed below`] : kinds;
  return named.join('; ');
}

function titleOf(code: string): string {
  const { title = code } = codeEntry(code) ?? {};
  return title.charAt(0).toLowerCase() + title.slice(1);
}

function amount(count: number, word: string): string {
  return `${String(count)} ${word}${count === 1 ? '' : 's'}`;
}

function percent(value: number): string {
  return `${String(Number((value * 100).toFixed(4)))} %`;
}

/** Findings may touch the same pages: a share is never more than all of them. */
function share(touched: number, all: number): string {
  const pages = Math.min(touched, all);
  return `${String(pages)} of ${amount(all, 'page')}${all === 0 ? '' : ` (${String(Number(((pages / all) * 100).toFixed(2)))} %)`}`;
}
