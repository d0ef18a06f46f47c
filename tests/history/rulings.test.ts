import { describe, expect, it } from 'vitest';
import type { Finding, Findings } from '../../src/model/findings.js';
import { DEMO_MISTAKES } from '../forge/demonstration.js';
import { demoDelivered } from './deliveries.js';

const clean = demoDelivered([]);
const ruled = (decision: Ruling['decision'], id: string) => ({
  finding: id,
  decision,
  note: 'Seen on the film.',
  by: 'Ilse Marrow',
  on: '2031-03-05',
});
type Ruling = { readonly decision: 'vendor-corrects' | 'collation-wrong' | 'accept-as-is' };

const [accepted, wrong, vendors] = ['printed-date-not-given', 'sections-flattened', 'date-differs'].map(
  (code) => clean.findings.find((finding) => finding.code === code)!.id,
) as [string, string, string];
const first = demoDelivered([], {
  rulings: [ruled('accept-as-is', accepted), ruled('collation-wrong', wrong), ruled('vendor-corrects', vendors)],
});
const get = (result: Findings, id: string): Finding => result.findings.find((finding) => finding.id === id)!;

describe('what the library decided about an earlier delivery', () => {
  it('still holds where the same thing is found again, and that it was carried over is said', () => {
    const second = demoDelivered([], { earlier: first });
    for (const id of [accepted, wrong, vendors]) expect(get(second, id).ruling).toEqual(get(first, id).ruling);
    expect(second.run.remarks).toContainEqual(expect.stringMatching(/^Rulings carried over from delivery 1: /));
    for (const id of [accepted, wrong, vendors]) expect(second.run.remarks.join(' ')).toContain(id);
  });

  it('gives way to what is decided anew', () => {
    const second = demoDelivered([], { earlier: first, rulings: [ruled('vendor-corrects', accepted)] });
    expect(get(second, accepted).ruling?.decision).toBe('vendor-corrects');
    expect(get(second, wrong).ruling?.decision).toBe('collation-wrong');
  });

  it('does not hold where the vendor has sent something else since', () => {
    const other = {
      ...first,
      findings: first.findings.map((finding) => (finding.id === wrong ? { ...finding, return: '9-16' } : finding)),
    };
    const second = demoDelivered([], { earlier: other });
    expect(get(second, wrong)).toMatchObject({ status: 'open', ruling: null });
    expect(second.run.remarks.join(' ')).toContain(`The ruling on ${wrong} (collation-wrong, Ilse Marrow) was made on another reading`);
  });

  it('stays with a finding that is corrected', () => {
    const second = demoDelivered(DEMO_MISTAKES, { earlier: first });
    expect(second.findings).toEqual([]);
    expect(second.corrected.find((finding) => finding.id === accepted)?.ruling?.decision).toBe('accept-as-is');
    expect(second.verdict.decision).toBe('accept');
  });

  it("keeps the vendor's answer", () => {
    const answer = { text: 'Will be done.', on: '2031-03-09' };
    const answered = { ...first, findings: first.findings.map((finding) => ({ ...finding, answer })) };
    expect(demoDelivered([], { earlier: answered }).findings.every((finding) => finding.answer?.text === answer.text)).toBe(true);
  });
});

describe('the reading of the page text', () => {
  const textual: Finding = {
    ...get(clean, accepted),
    id: 'text-date-disagrees-0123456789ab',
    code: 'text-date-disagrees',
    severity: 'major',
    ruling: null,
  };
  const catalogue = [...clean.catalogue, { code: textual.code, group: 'text', title: 'T', why: 'W', severity: 'major' as const }];
  const earlier: Findings = { ...clean, findings: [...clean.findings, textual], catalogue };

  it('is needed again where two documents disagree, one of which is the text of a page', () => {
    const says = 'Of The Tolmouth Lantern of 1879-08-26 on frame 8, the page text gives the page number as 3 instead of 1.';
    const disagree: Finding = { ...textual, id: 'documents-disagree-0123456789ab', code: 'documents-disagree', says };
    const before = {
      ...earlier,
      findings: [disagree],
      catalogue: [...catalogue, { ...catalogue[0]!, code: disagree.code, group: 'documents' }],
    };
    expect(demoDelivered(DEMO_MISTAKES, { earlier: before }).pending?.map(({ id }) => id)).toEqual([disagree.id]);
    expect(demoDelivered(DEMO_MISTAKES, { earlier: before, textRead: true }).corrected.map(({ id }) => id)).toEqual([disagree.id]);
  });

  it('is needed again before a finding that rests on it counts as corrected', () => {
    const second = demoDelivered(DEMO_MISTAKES, { earlier });
    expect(second.pending?.map((finding) => finding.id)).toEqual([textual.id]);
    expect(second.verdict.decision).toBe('cannot-decide');
    const third = demoDelivered(DEMO_MISTAKES, { earlier: second, textRead: true });
    expect([third.pending, third.corrected.map((finding) => finding.id)]).toEqual([undefined, [textual.id]]);
    expect(third.verdict.decision).toBe('accept');
  });
});
