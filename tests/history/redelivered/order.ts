import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { quietly } from '../../../src/acts/surroundings.js';
import { verification } from '../../../src/acts/verify.js';
import type { Finding, Findings } from '../../../src/model/findings.js';
import { type Expected, FAULTS, type Fault, type Spoilt, spoilAll } from '../../forge/faults/index.js';
import { makeFilm } from '../../forge/film/make-film.js';
import { type Random, randomFrom } from '../../forge/film/random.js';
import { writeReturn } from '../../forge/write/index.js';
import { writeFiles } from '../../support/on-disk.js';

/** How the vendor sends the batch again: all of it, or only the documents that were changed, to be laid over the first delivery. */
export type Way = 'whole' | 'documents alone';

/** An order with two deliveries, and what is true of the second one by what was planted and mended. */
export interface Redelivered {
  readonly seed: number;
  readonly way: Way;
  readonly first: Findings;
  readonly second: Findings;
  /** What was planted in the first delivery, and what the vendor mended of it. */
  readonly planted: readonly Expected[];
  readonly mended: ReadonlySet<string>;
  /** What went wrong only in the second delivery; null where nothing did. */
  readonly fresh: string | null;
  /** Files that were sent the second time, and those of the first delivery. */
  readonly sent: number;
  readonly files: number;
}

/** Mistakes that can stand beside others, in a return that is otherwise as usual. */
const KINDS = FAULTS.filter(
  ({ alone, policies, plan, reshape, profile }) =>
    alone !== true && policies === undefined && plan === undefined && reshape === undefined && profile === undefined,
);

/** The order of this seed; null where the film has no place for what was drawn, or the way of sending cannot carry it. */
export async function redelivered(seed: number): Promise<Redelivered | null> {
  const random = randomFrom(seed * 7919);
  const film = makeFilm({ seed, pages: 70, oddPerMille: 450, ...(seed % 5 === 0 ? { reels: 2, titles: 1 } : {}) });
  const kinds = random.shuffled(KINDS).slice(0, 2 + (seed % 3));
  const mended = new Set(kinds.filter(() => random.chance(500)).map(({ kind }) => kind));
  // in every fourth order one of the mistakes is made in the second delivery alone
  const fresh = seed % 4 === 0 ? (kinds.find(({ kind }) => !mended.has(kind))?.kind ?? null) : null;
  const before = planted(film, kinds, seed, fresh === null ? [] : [fresh]);
  const after = planted(film, kinds, seed, [...mended]);
  if (before === null || after === null || JSON.stringify(before.record) !== JSON.stringify(after.record)) return null;
  const [old, now] = [filesOf(before), filesOf(after)];
  const way: Way = seed % 2 === 0 ? 'whole' : 'documents alone';
  const changed = [...now].filter(([path, text]) => old.get(path) !== text);
  // what is laid over a delivery takes nothing out of it
  if (way === 'documents alone' && (changed.length === 0 || [...old.keys()].some((path) => !now.has(path)))) return null;
  const sent = way === 'whole' ? [...now] : changed;
  const { first, second } = await verified(before, old, new Map(sent), way);
  return { seed, way, first, second, planted: before.expected, mended, fresh, sent: sent.length, files: old.size };
}

function planted(film: ReturnType<typeof makeFilm>, kinds: readonly Fault[], seed: number, without: readonly string[]): Spoilt | null {
  const random: Random = randomFrom(seed + 5);
  return spoilAll(film, kinds, random, { targetsListed: true }, new Set(without));
}

function filesOf({ plan }: Spoilt): ReadonlyMap<string, string> {
  return new Map([...writeReturn(plan, 'issue-mets')].map(({ path, text }) => [path, text] as const));
}

async function verified(
  { record, plan }: Spoilt,
  old: ReadonlyMap<string, string>,
  sent: ReadonlyMap<string, string>,
  way: Way,
): Promise<{ readonly first: Findings; readonly second: Findings }> {
  const desk = mkdtempSync(join(tmpdir(), 'reeltally-again-'));
  const put = (drive: string, files: ReadonlyMap<string, string>): string => {
    const folder = join(desk, drive, plan.batch);
    mkdirSync(folder, { recursive: true });
    writeFiles(
      folder,
      [...files].map(([path, text]) => ({ path, text })),
    );
    return folder;
  };
  const save = (name: string, value: unknown): string => {
    writeFileSync(join(desk, name), JSON.stringify(value));
    return join(desk, name);
  };
  try {
    const [one, two] = [put('drive-1', old), put('drive-2', sent)];
    const policies = { ...(way === 'whole' ? {} : { redelivery: 'named-items' as const }) };
    const files = {
      collation: [save('record.json', record)],
      agreement: save('agreement.json', { format: 'reeltally/agreement/2', policies }),
    };
    const first = await verification({ ...files, batch: [one] }, quietly('2031-03-04T10:00:00Z'));
    const earlier = save('findings.json', first);
    const batch = way === 'whole' ? [two] : [one, two];
    return { first, second: await verification({ ...files, batch, earlier }, quietly('2031-04-04T10:00:00Z')) };
  } finally {
    rmSync(desk, { recursive: true, force: true });
  }
}

/** Whether a finding is about what was planted here: the code and the place that were worked out when it was planted. */
export function isAbout({ code, reel, at, title, date }: Finding, one: Expected): boolean {
  if (code !== one.code) return false;
  return one.at === null ? title === one.title && date === one.date : at === one.at && (reel === one.reel || one.reel === null);
}

/** A digest of what was said, for the message of a failed law. */
export const shown = (findings: readonly Finding[]): string =>
  findings
    .map(
      ({ id, code, at, status }) =>
        `${code} at ${at ?? '-'} ${status ?? ''} (${createHash('sha256').update(id).digest('hex').slice(0, 6)})`,
    )
    .join('; ');
