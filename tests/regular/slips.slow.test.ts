import { describe, expect, it } from 'vitest';
import type { CollationRecord } from '../../src/model/collation-record.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { type Irregularity, irregularities } from '../../src/regular/index.js';
import { makeFilm } from '../forge/film/make-film.js';
import { randomFrom } from '../forge/film/random.js';
import { recordOf } from '../forge/record/record-of.js';
import { SLIPS, type SlipKind, sitesOf } from './slips.js';

/** What a record shows by itself; a slip that keeps it from being read is told before, and counts as shown. */
function shown(record: CollationRecord): readonly Irregularity[] | 'refused' {
  const { record: read, side, problems } = normaliseRecord({ sheets: [], records: [{ name: 'r.json', record }] });
  return problems.length > 0 ? 'refused' : irregularities(read, side).found;
}

const keyOf = ({ code, says }: Irregularity): string => `${code} ${says}`;
const FILMS = Array.from({ length: 120 }, (_, seed) => recordOf(makeFilm({ seed: seed + 1, pages: 120 })));
const CLEAN = FILMS.map((record) => {
  const found = shown(record);
  return new Set(found === 'refused' ? [] : found.map(keyOf));
});

/** Of the slips of a kind, those planted and those that are named at their place. */
function planted(kind: SlipKind): { readonly all: number; readonly named: number; readonly missed: readonly string[] } {
  let [all, named] = [0, 0];
  const missed: string[] = [];
  for (const [film, record] of FILMS.entries()) {
    const random = randomFrom(film * 31 + 7);
    const sites = sitesOf(record);
    if (sites.length === 0) continue;
    const slip = kind.plant(random.pick(sites), random);
    if (slip === null) continue;
    all += 1;
    const found = shown(slip.record);
    const at =
      found === 'refused' ||
      found.some(
        (item) =>
          !(CLEAN[film]?.has(keyOf(item)) ?? false) &&
          (slip.days.includes(item.date ?? '') || (item.frames !== null && slip.frames.includes(item.frames.from))),
      );
    if (at) named += 1;
    else missed.push(`film ${String(film + 1)}: ${slip.days.join(' ')}`);
  }
  return { all, named, missed };
}

describe('a slip of the record', () => {
  it.each(SLIPS.filter(({ hidden }) => hidden === null))('is named by the record alone: $name', (kind) => {
    const { all, named, missed } = planted(kind);
    expect(all).toBeGreaterThan(10);
    expect(named / all, `${String(named)} of ${String(all)}; ${missed.join(', ')}`).toBeGreaterThanOrEqual(0.98);
  });

  it.each(SLIPS.filter(({ hidden }) => hidden !== null))('that no regularity shows stays unsaid, for a reason: $name', (kind) => {
    expect(kind.hidden).toMatch(/^[A-Z].*\.$/);
    expect(planted(kind).named).toBe(0);
  });
});
