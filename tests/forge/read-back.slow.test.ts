import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { Side } from '../../src/model/film.js';
import { normaliseReturn } from '../../src/normalise/return.js';
import { issueMets } from '../../src/profiles/issue-mets.js';
import { pageMods } from '../../src/profiles/page-mods.js';
import { readReturn } from '../../src/read/return.js';
import { writeFiles } from '../support/on-disk.js';
import { sideOfPlan } from '../support/sides.js';
import { FAULTS, spoil } from './faults/index.js';
import { makeFilm } from './film/make-film.js';
import { randomFrom } from './film/random.js';
import { planOf, type ReturnPlan } from './plan.js';
import { SPELLINGS, type WriteOptions, type WriteProfile, writeReturn } from './write/index.js';

const root = mkdtempSync(join(tmpdir(), 'invented-return-'));
afterAll(() => rmSync(root, { recursive: true }));
let count = 0;

async function readBack(plan: ReturnPlan, profile: WriteProfile, options: WriteOptions = {}): Promise<Side> {
  const folder = join(root, String((count += 1)), plan.batch);
  writeFiles(folder, writeReturn(plan, profile, { filmSuffix: '', ...options }));
  const chosen = profile === 'issue-mets' ? issueMets : pageMods;
  const read = await readReturn([folder], { profiles: [chosen], readText: false });
  if (!read.ok) throw new Error(read.says);
  return normaliseReturn(read.written, chosen);
}

/** What both sides must say alike: frames by reel, issues by what they are, absences. */
function gist(side: Side): unknown {
  const issueKey = (index: number | null): unknown => {
    const issue = index === null ? undefined : side.issues[index];
    return issue === undefined
      ? null
      : [
          issue.title,
          issue.date?.text,
          issue.datePrinted?.text,
          issue.edition,
          issue.editionLabel,
          issue.volume,
          issue.issueNumber,
          issue.present,
        ];
  };
  const reels = side.reels
    .map((reel) => ({
      number: reel.number,
      listed: reel.targetsListed,
      facts: Object.entries(reel.facts)
        .filter(([name]) => name !== 'batchIdFilmId')
        .sort(([a], [b]) => (a < b ? -1 : 1)),
      frames: reel.frames.map((frame) => [
        frame.frame?.exposure,
        frame.frame?.half,
        frame.kind,
        frame.deliver,
        issueKey(frame.issue),
        frame.section,
        frame.page,
        frame.order,
      ]),
    }))
    .sort((a, b) => (a.number < b.number ? -1 : 1));
  const text = (value: unknown): string => JSON.stringify(value);
  return {
    reels,
    issues: side.issues.map((_, i) => text(issueKey(i))).sort(),
    absences: side.absences
      .map((each) => text([each.title, each.date?.text, each.edition, each.section, each.page, each.order, each.published]))
      .sort(),
  };
}

describe('a faithful return, written and read', () => {
  it.each(Array.from({ length: 12 }, (_, i) => i + 1))('seed %i says in issue-mets what the plan says', async (seed) => {
    const plan = planOf(makeFilm({ seed, pages: 30 }));
    const side = await readBack(plan, 'issue-mets');
    expect(side.problems).toEqual([]);
    expect(gist(side)).toEqual(gist(sideOfPlan(plan)));
  });

  it.each(Array.from({ length: 12 }, (_, i) => i + 1))('seed %i says in page-mods what the plan says', async (seed) => {
    const plan = planOf(makeFilm({ seed, pages: 30, reels: 1 }), { targetsListed: false });
    const side = await readBack(plan, 'page-mods');
    expect(side.problems).toEqual([]);
    expect(gist(side)).toEqual(gist(sideOfPlan(plan, 'page-mods')));
  });

  it.each(Object.entries(SPELLINGS))('%s says the same', async (_, options) => {
    const plan = planOf(makeFilm({ seed: 4, pages: 30, reels: 1, oddPerMille: 500 }));
    for (const profile of ['issue-mets', 'page-mods'] as const) {
      const [usual, other] = [await readBack(plan, profile), await readBack(plan, profile, options)];
      expect(other.problems).toEqual([]);
      expect(gist(other)).toEqual(gist(usual));
    }
  });

  it('gives the digest and the width of every page in issue-mets', async () => {
    const plan = planOf(makeFilm({ seed: 6, pages: 20 }));
    const master = (side: Side): unknown =>
      side.reels.map((reel) =>
        reel.frames
          .filter((frame) => frame.kind === 'page')
          .map((frame) =>
            frame.files.filter((file) => file.use === 'master').map((file) => [file.href, file.digest, file.width, file.height]),
          ),
      );
    expect(master(await readBack(plan, 'issue-mets'))).toEqual(master(sideOfPlan(plan)));
  });
});

describe('a spoilt return, written and read', () => {
  const films = Array.from({ length: 40 }, (_, i) =>
    makeFilm({ seed: i + 1, pages: 60, oddPerMille: 450, ...(i % 4 === 0 ? { reels: 2, titles: 1 } : {}) }),
  );
  it.each(FAULTS.map((fault) => [fault.kind, fault] as const))('%s says in issue-mets what the plan says', async (_, fault) => {
    const spoilt = films.map((film) => spoil(film, fault, randomFrom(film.seed))).find((each) => each !== null);
    if (spoilt === undefined) throw new Error('no film of forty has a place for it');
    const side = await readBack(spoilt.plan, 'issue-mets');
    const whole = spoilt.plan.documents.length === 0 && spoilt.plan.issues.every((issue) => issue.statementText === null);
    if (whole) expect(gist(side)).toEqual(gist(sideOfPlan(spoilt.plan)));
    else expect(side.problems.length).toBeGreaterThan(0);
  });
});
