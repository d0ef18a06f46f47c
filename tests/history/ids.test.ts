import { describe, expect, it } from 'vitest';
import { demoRecord, demoReturn } from '../forge/demonstration.js';
import type { ReturnPlan } from '../forge/plan.js';
import { delivered, demoDelivered } from './deliveries.js';

const first = demoDelivered([]);
const faulty = (): ReturnPlan => structuredClone(demoReturn('faulty').plan);
const ids = (plan: ReturnPlan): string[] => delivered(demoRecord(), plan, { earlier: first }).findings.map(({ id }) => id);

describe('the id of a finding', () => {
  it('stays where the vendor numbers the whole reel otherwise', () => {
    const plan = faulty();
    for (const reel of plan.reels)
      for (const capture of reel.captures) capture.frame = capture.frame.replace(/^\d+/, (number) => String(Number(number) + 300));
    const found = ids(plan);
    // What was wrong with the numbers is another finding now; all else keeps its name.
    for (const { id, field } of first.findings) if (field !== 'frame') expect(found).toContain(id);
  });

  it('stays where the documents come in another order', () => {
    const plan = faulty();
    const last = plan.issues.length - 1;
    plan.issues.reverse();
    for (const reel of plan.reels) for (const capture of reel.captures) if (capture.issue !== null) capture.issue = last - capture.issue;
    expect(ids(plan).sort()).toEqual(first.findings.map(({ id }) => id).sort());
  });

  it('stays where the return says something else that is wrong too', () => {
    const plan = faulty();
    const dated = first.findings.find(({ code, return: sent }) => code === 'date-differs' && sent !== null)!;
    const issue = plan.issues.find(({ date }) => date === dated.return)!;
    issue.date = '1874-09-09';
    const now = delivered(demoRecord(), plan, { earlier: first }).findings.find(({ id }) => id === dated.id);
    expect(now).toMatchObject({ status: 'open', return: '1874-09-09' });
  });
});
