import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { FindingCode } from '../../src/catalogue/codes.js';
import type { Findings, ResultFrame } from '../../src/model/findings.js';
import { renderHtml } from '../../src/report/html/index.js';
import { SIGNS, type Sign, toldOf, weightAt } from '../../src/report/html/signs.js';
import { SEVERITIES } from '../../src/report/words.js';
import verified from '../fixtures/verified.js';

const root = new URL('../../fixtures/', import.meta.url).pathname;
const cases = (kind: string): [string, string][] =>
  readdirSync(join(root, kind))
    .sort()
    .map((name) => [name, join(root, kind, name)]);

/** What a frame looks like at which a finding stands, by what the finding says has happened; thought out by hand from the titles of the codes. Any other finding is about a fact of a page that came. */
const LOOKS: Partial<Record<FindingCode, readonly Sign[]>> = {
  'frame-not-scanned': ['not-delivered', 'record-only', 'number-differs'],
  'frame-scanned-twice': ['return-only', 'number-differs'],
  'frame-number-wrong': ['number-differs', 'return-only'],
  'frame-number-repeated': ['number-differs', 'return-only'],
  'frame-number-gap': ['number-differs'],
  'frames-reversed': ['number-differs'],
  'halves-swapped': ['number-differs'],
  'halves-shifted': ['number-differs'],
  'exposure-not-split': ['differs', 'not-delivered'],
  'page-not-delivered': ['not-delivered'],
  'issue-not-delivered': ['not-delivered'],
  'absence-stated-wrongly': ['not-delivered'],
  'absence-not-stated': ['return-only'],
  'wrong-take-delivered': ['not-delivered', 'delivered-though-held-back'],
  'delivery-inverted': ['not-delivered', 'delivered-though-held-back'],
  'duplicate-delivered-as-page': ['delivered-though-held-back'],
  'suppressed-frame-delivered': ['delivered-though-held-back'],
  'non-page-delivered': ['delivered-though-held-back'],
  'issue-delivered-twice': ['delivered-though-held-back'],
  'delivered-from-both-reels': ['delivered-though-held-back', 'differs'],
  'page-not-in-collation': ['return-only'],
  'issue-not-in-collation': ['return-only'],
  'document-unreadable': ['not-compared'],
};

interface Seen {
  readonly frame: ResultFrame;
  readonly sign: Sign;
  readonly codes: readonly FindingCode[];
}

function seenIn(result: Findings): readonly Seen[] {
  const told = toldOf(result);
  return result.reels
    .flatMap((reel) => reel.frames)
    .map((frame) => ({ frame, sign: frame.state, codes: frame.findings.map((id) => told.get(id)!.code as FindingCode) }));
}

/** What is so of a frame, in the words of record and return. */
const ordered = ({ frame, deliver }: ResultFrame): boolean => frame !== null && deliver;
const came = ({ returnedKind }: ResultFrame): boolean => returnedKind === 'page' || returnedKind === 'target';

/** What is untrue of a sign; nothing where it says what is so. */
function untrue({ frame, sign, codes }: Seen): string | null {
  const looks = codes.flatMap((code) => LOOKS[code] ?? (['differs'] satisfies Sign[]));
  const follows = frame.follows ?? [];
  if (sign === 'agrees') return codes.length + follows.length > 0 ? 'a finding says something of it' : null;
  if (sign === 'not-compared') return codes.length > 0 && !looks.includes('not-compared') ? 'it was compared' : null;
  if (codes.length + follows.length === 0) return 'no finding says why';
  if (codes.length > 0 && !looks.includes(sign)) return `${codes.join()} looks otherwise`;
  const so: Readonly<Record<Exclude<Sign, 'agrees' | 'not-compared'>, boolean>> = {
    'not-delivered': ordered(frame) && !came(frame),
    'delivered-though-held-back': frame.frame !== null && !frame.deliver && frame.returnedKind === 'page',
    'return-only': frame.frame === null,
    differs: frame.frame !== null && (came(frame) || !frame.deliver),
    'record-only': frame.frame !== null && !frame.deliver && frame.returned === null && frame.returnedKind === null,
    'number-differs': (frame.frame !== null && frame.deliver === came(frame)) || (!frame.deliver && frame.returnedKind !== 'page'),
  };
  return so[sign] ? null : 'what came is otherwise';
}

/** The cells of the film as the page has them: the class of the sign, and the class of the weight. */
function cellsOf(page: string): readonly string[] {
  const film = page.slice(page.indexOf('<h2 id="film">'));
  return [...film.matchAll(/<i class="([^"]*)">[PBTVO]<\/i>/g)].map((match) => match[1] ?? '');
}

const WEIGHTS = ['wc', 'wm', 'wi', 'wn'];

describe('the signs of the film', () => {
  it.each([...cases('differs'), ...cases('unreadable')])('say what is so in %s', async (_, folder) => {
    const result = await verified(folder);
    const seen = seenIn(result);
    expect(seen.flatMap((one) => (untrue(one) === null ? [] : [`${String(one.frame.frame)} ${one.sign}: ${untrue(one) ?? ''}`]))).toEqual(
      [],
    );
    // What stands on frames is seen, and nothing is seen of which no finding speaks.
    for (const finding of result.findings.filter(({ frames, field }) => frames !== null && field !== 'absence')) {
      const own = seen.filter(({ frame }) => [...frame.findings, ...(frame.follows ?? [])].includes(finding.id));
      expect([finding.id, own.some(({ sign }) => sign !== 'agrees')]).toEqual([finding.id, true]);
    }
    // The page draws each frame so, with the weight of the worst finding there that counts.
    const byId = toldOf(result);
    const css = new Map(SIGNS.map(([sign, { css: name }]) => [sign, name]));
    const drawn = cellsOf(renderHtml(result)).map((classes) => classes.split(' '));
    expect(drawn.map((classes) => classes.find((name) => name.startsWith('s')))).toEqual(seen.map(({ sign }) => css.get(sign)));
    expect(drawn.map((classes) => classes.find((name) => WEIGHTS.includes(name)) ?? null)).toEqual(
      seen.map(({ frame }) => {
        const worst = SEVERITIES.findIndex((severity) =>
          [...frame.findings, ...(frame.follows ?? [])].some((id) => byId.get(id)?.severity === severity),
        );
        return worst < 0 ? null : WEIGHTS[worst];
      }),
    );
  });

  it.each(cases('agrees'))('are none in %s', async (_, folder) => {
    const seen = seenIn(await verified(folder));
    expect(seen.filter(({ sign, codes }) => sign !== 'agrees' && sign !== 'not-compared' && codes.length === 0)).toEqual([]);
  });

  it('are all shown by some fixture, and each has a sentence in the legend', async () => {
    const shown = new Set<Sign>();
    for (const [, folder] of [...cases('differs'), ...cases('unreadable')])
      for (const { sign } of seenIn(await verified(folder))) shown.add(sign);
    expect(SIGNS.map(([sign]) => sign).filter((sign) => !shown.has(sign))).toEqual([]);
    const page = renderHtml(await verified(join(root, 'differs', 'date-differs--year-misread'))).replace(/&#39;/g, "'");
    for (const [, { means, css }] of SIGNS) {
      expect(page).toContain(means);
      expect(page).toContain(`<i class="p ${css}" aria-hidden="true">P</i>`);
    }
  });

  it('weigh nothing where the library has decided that they do not count', async () => {
    const result = await verified(join(root, 'differs', 'date-differs--year-misread'));
    const [finding] = result.findings;
    const ruling = { decision: 'accept-as-is', note: '', by: 'Ada Pell', on: '2031-01-02' };
    const told = toldOf({ ...result, findings: [{ ...finding!, ruling }] });
    const frame = result.reels.flatMap((reel) => reel.frames).find(({ findings }) => findings.includes(finding!.id))!;
    expect([frame.state, weightAt(frame, told)]).toEqual(['differs', null]);
  });
});
