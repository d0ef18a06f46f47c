import type { Findings } from '../model/findings.js';
import { plainJson } from './json-escapes.js';

/** The result in one line of JSON for scripts: batch, delivery, verdict, findings by severity and by code, what is paid for by class. */
export function renderJsonl(findings: Findings): string {
  return jsonLine(summaryOf(findings));
}

/** A value as one line of JSON (jsonlines.org), with nothing in it that steers a terminal. */
export function jsonLine(value: unknown): string {
  return `${plainJson(JSON.stringify(value))}\n`;
}

/** What the line of a result says; findings that no longer count by a ruling are counted too. */
export function summaryOf({ run, verdict, findings, counts }: Findings): Readonly<Record<string, unknown>> {
  const severities = { critical: 0, major: 0, minor: 0, note: 0 };
  const codes = new Map<string, number>();
  for (const { severity, code } of findings) {
    severities[severity] += 1;
    codes.set(code, (codes.get(code) ?? 0) + 1);
  }
  return {
    batch: run.batch,
    delivery: run.delivery,
    at: run.at,
    verdict: verdict.decision,
    severities,
    codes: Object.fromEntries([...codes].toSorted(([a], [b]) => (a < b ? -1 : 1))),
    classes: counts.classes,
  };
}
