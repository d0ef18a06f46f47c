import { create } from 'xmlbuilder2';
import type { XMLBuilder } from 'xmlbuilder2/lib/interfaces.js';
import type { Finding, Findings } from '../../model/findings.js';
import { answerInWords, forTheVendor, whoActs } from '../words.js';
import { xmlText } from './escape.js';

/** Namespace of our own small vocabulary; described in schemas/discrepancies.xsd. */
const NAMESPACE = 'urn:reeltally:discrepancies:1';

type Facts = Readonly<Record<string, string | number | null | undefined>>;

/** Adds an element; attributes that are null or undefined are left out. */
function add(parent: XMLBuilder, name: string, facts: Facts, text?: string | null): XMLBuilder {
  const attributes = Object.entries(facts).flatMap(([key, value]) => (value == null ? [] : [[key, xmlText(String(value))] as const]));
  const element = parent.ele(NAMESPACE, name, Object.fromEntries(attributes));
  if (text != null && text !== '') element.txt(xmlText(text));
  return element;
}

function addIssue(parent: XMLBuilder, finding: Finding, result: Findings): void {
  const { title, date, edition, page } = finding;
  if (title === null && date === null && page === null) return;
  const name = result.titles.find((known) => known.id === title)?.name;
  add(parent, 'issue', { title, name, date, edition, page });
}

function addDiscrepancy(parent: XMLBuilder, finding: Finding, result: Findings): void {
  const element = add(parent, 'discrepancy', {
    id: finding.id,
    code: finding.code,
    severity: finding.severity,
    scope: finding.scope,
    cause: finding.cause,
    acts: whoActs(finding),
    reel: finding.reel,
    at: finding.at,
    count: finding.count,
    rescan: finding.rescan,
    status: finding.status,
  });
  if (finding.frames !== null) {
    const frames = add(element, 'frames', { from: finding.frames.from, to: finding.frames.to });
    for (const frame of finding.frames.list ?? []) add(frames, 'frame', {}, frame);
  }
  addIssue(element, finding, result);
  if (finding.field !== null || finding.collation !== null || finding.return !== null) {
    const readings = add(element, 'readings', { field: finding.field });
    if (finding.collation !== null) add(readings, 'record', {}, finding.collation);
    if (finding.return !== null) add(readings, 'return', {}, finding.return);
  }
  add(element, 'says', {}, finding.says);
  if (finding.instruction !== null) add(element, 'instruction', {}, finding.instruction);
  for (const sentence of finding.evidence) add(element, 'evidence', {}, sentence);
  for (const other of finding.alternatives) {
    const alternative = add(element, 'alternative', { cause: other.cause });
    add(alternative, 'says', {}, other.says);
    if (other.instruction !== null) add(alternative, 'instruction', {}, other.instruction);
  }
  for (const { do: act, document, element: spot, reel, frame, numberedBy, field, from, to } of finding.repair)
    add(element, 'repair', { do: act, document, element: spot, reel, frame, numberedBy, field, from, to });
  for (const line of finding.billable) add(element, 'billing', { class: line.class, change: line.change });
  for (const place of finding.places) add(element, 'place', { ...place });
  if (finding.ruling !== null) {
    add(element, 'ruling', { decision: finding.ruling.decision, by: finding.ruling.by, on: finding.ruling.on }, finding.ruling.note);
  }
  if (finding.answer !== null) add(element, 'answer', { on: finding.answer.on }, answerInWords(finding.answer, 'as-written'));
}

/** The list for the vendor as XML for machines: every text whole, worst first, what was corrected since the earlier delivery, and what could not be compared. */
export function renderXml(findings: Findings): string {
  const { run, tool, verdict } = findings;
  const document = create({ version: '1.0', encoding: 'UTF-8' });
  const root = add(document, 'discrepancies', {
    tool: tool.name,
    version: tool.version,
    at: run.at,
    batch: run.batch,
    delivery: run.delivery,
    profile: run.profile,
    received: run.received,
    verdict: verdict.decision,
  });
  for (const reason of verdict.reasons) add(root, 'reason', {}, reason);
  for (const finding of forTheVendor(findings.findings)) addDiscrepancy(root, finding, findings);
  for (const { id, code, reel, at, count, changed, says } of forTheVendor(findings.corrected)) {
    add(root, 'corrected', { id, code, reel, at, count, changed }, says);
  }
  for (const gap of findings.unchecked) {
    const { what, frames, count } = gap;
    add(root, 'unchecked', { what, from: frames?.from, to: frames?.to, count, required: gap.required ? 'yes' : 'no' }, gap.why);
  }
  return `${document.end({ prettyPrint: true })}\n`;
}
