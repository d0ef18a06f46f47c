import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import { DEMO_MISTAKES, demoRecord, demoReturn } from '../forge/demonstration.js';
import { FAULTS, faultOf, spoilAll } from '../forge/faults/index.js';
import { makeFilm } from '../forge/film/make-film.js';
import { randomFrom } from '../forge/film/random.js';
import { delivered, demoDelivered } from './deliveries.js';

const first = demoDelivered([]);
const ids = (findings: readonly { readonly id: string }[] = []): string[] => findings.map(({ id }) => id).sort();

/** The finding of each planted mistake, by the kind of the mistake: what was planted is known from outside the comparison. */
const idOfKind = new Map(
  demoReturn('faulty').expected.map(({ kind, code, at }) => [kind, first.findings.find((one) => one.code === code && one.at === at)!.id]),
);
const idsOfKinds = (kinds: readonly string[]): string[] => kinds.map((kind) => idOfKind.get(kind)!).sort();

describe('a second delivery in which the vendor corrected some mistakes', () => {
  it('begins with a finding for each of the mistakes', () => {
    expect(ids(first.findings)).toEqual(idsOfKinds(DEMO_MISTAKES));
    expect(first.findings.every((finding) => finding.status === undefined)).toBe(true);
  });

  it.each([0, 1])('names exactly the half that was corrected and the half that was not (half %i)', (half) => {
    const corrected = DEMO_MISTAKES.filter((_, at) => at % 2 === half);
    const second = demoDelivered(corrected, { earlier: first });
    expect(ids(second.corrected)).toEqual(idsOfKinds(corrected));
    expect(new Set(second.corrected.map((finding) => finding.changed))).toEqual(new Set(['return']));
    expect(ids(second.findings)).toEqual(idsOfKinds(DEMO_MISTAKES.filter((kind) => !corrected.includes(kind))));
    expect(new Set(second.findings.map((finding) => finding.status))).toEqual(new Set(['open']));
    expect(second.pending).toBeUndefined();
  });

  it('does so for any choice of mistakes', () => {
    fc.assert(
      fc.property(fc.subarray([...DEMO_MISTAKES]), (corrected) => {
        const second = demoDelivered(corrected, { earlier: first });
        expect(ids(second.corrected)).toEqual(idsOfKinds(corrected));
        expect(ids(second.findings)).toEqual(idsOfKinds(DEMO_MISTAKES.filter((kind) => !corrected.includes(kind))));
      }),
      { numRuns: 25, seed: 1899 },
    );
  });

  it('tells what is new from what was open, over three deliveries', () => {
    const without = (kind: string): string[] => DEMO_MISTAKES.filter((each) => each !== kind);
    const second = demoDelivered(without('year-misread'), { earlier: first });
    const third = demoDelivered(without('editions-merged'), { earlier: second });
    expect(ids(third.corrected)).toEqual(idsOfKinds(['year-misread']));
    expect(third.findings.map(({ id, status }) => [id, status])).toEqual([[idOfKind.get('editions-merged'), 'new']]);
    expect(third.run.remarks.join(' ')).toContain(
      `${idOfKind.get('editions-merged')!} had been corrected by delivery 2 and is there again.`,
    );
  });
});

describe('every kind of mistake that can be planted', () => {
  /** These exist only in written files; document.test.ts and the fixtures have them. */
  const written = [
    'manifest-lacks-issue',
    'manifest-lists-twice',
    'document-cut-off',
    'document-not-there',
    'stray-document',
    'statement-unknown',
  ];
  /** The plan of the whole return goes with it, not one mistake. */
  const whole = ['printed-date-not-wanted'];

  it.each(FAULTS.map(({ kind }) => kind).filter((kind) => ![...written, ...whole].includes(kind)))(
    'is corrected when it is: %s',
    (kind) => {
      let tried = 0;
      for (let seed = 1; seed <= 120 && tried < 1; seed++) {
        const film = makeFilm({ seed, pages: 90, oddPerMille: 450, ...(seed % 4 === 1 ? { reels: 2, titles: 1 } : {}) });
        const spoilt = spoilAll(film, [faultOf(kind)], randomFrom(seed + 5), { targetsListed: true });
        const mended = spoilAll(film, [faultOf(kind)], randomFrom(seed + 5), { targetsListed: true }, new Set([kind]));
        if (spoilt === null || mended === null) continue;
        const terms = {
          agreement: { format: 'reeltally/agreement/2', policies: spoilt.policies },
          shape: spoilt.profile ?? 'issue-mets',
        } as const;
        const before = delivered(spoilt.record, spoilt.plan, terms);
        if (before.findings.length === 0) continue;
        tried += 1;
        const after = delivered(mended.record, mended.plan, { ...terms, earlier: before });
        expect([after.findings, after.pending]).toEqual([[], undefined]);
        expect(ids(after.corrected)).toEqual(ids(before.findings));
        const side = JSON.stringify(mended.record) === JSON.stringify(spoilt.record) ? ['return'] : ['record', 'unclear'];
        for (const { changed } of after.corrected) expect(side).toContain(changed);
      }
      expect(tried).toBe(1);
    },
  );
});

describe("the record's side", () => {
  const page = (result: Findings, id: string) => result.findings.find((finding) => finding.id === id)!;

  it('is named where the record was changed to what the vendor sent', () => {
    const id = idOfKind.get('page-number-differs') ?? idOfKind.get('mispagination-repaired')!;
    const { at, reel, return: sent } = page(first, id);
    const record = demoRecord();
    const changed = {
      ...record,
      reels: record.reels.map((each) => ({
        ...each,
        frames: each.frames.map((frame) => {
          if (each.number !== reel || frame.frame !== at) return frame;
          return { ...frame, page: sent!, pagePrinted: sent! };
        }),
      })),
    };
    const second = delivered(changed, demoReturn('faulty').plan, { earlier: first });
    expect(second.corrected.map((finding) => [finding.id, finding.changed])).toEqual([[id, 'record']]);
    expect(second.run.remarks.join(' ')).toContain('The collation record was changed since the earlier delivery.');
    expect(second.run.remarks.join(' ')).toContain('byte for byte');
  });

  it('does not make a correction of a policy that no longer asks', () => {
    const agreement = { format: 'reeltally/agreement/2', policies: { printedDate: 'optional' } } as const;
    const second = delivered(demoRecord(), demoReturn('faulty').plan, { earlier: first, agreement });
    expect(ids(second.corrected)).toEqual([]);
    expect(ids(second.pending)).toEqual(idsOfKinds(['printed-date-lost']));
    expect(second.unchecked.find((gap) => gap.what.includes(idOfKind.get('printed-date-lost')!))).toMatchObject({
      why: 'The agreement asks otherwise now: its policy "printedDate" was required and is optional.',
      required: false,
    });
  });
});
