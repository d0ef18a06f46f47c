import type { Finding, Findings } from '../../src/model/findings.js';
import type { Case, Planted } from '../forge/algebra/case.js';
import { rightCodes } from '../forge/algebra/codes.js';
import type { Step } from '../forge/algebra/edit.js';
import { originalOf } from '../forge/algebra/things.js';

// What is true of a case is known from what was planted in it, never from what the program thinks of it.

/** How one planted edit was met by the findings. */
export interface Met {
  readonly planted: Planted;
  /** The findings that are about it, the one that names it best first. */
  readonly findings: readonly Finding[];
  /** That finding has a code that is right for it. */
  readonly code: boolean;
  /** It names the side that did it, or none where nothing tells. */
  readonly side: boolean;
  /** Every page that differs because of it is among the frames of its findings. */
  readonly owned: boolean;
}

/** What became of a case. */
export interface Verdict {
  readonly met: readonly Met[];
  /** Findings that are about nothing that was planted. */
  readonly untrue: readonly Finding[];
  /** Something was planted in the return and it would be accepted all the same. */
  readonly accepted: boolean;
}

/** What an edit touched, as findings can name it. */
interface Touched {
  readonly planted: Planted;
  /** Pictures that it changed itself, and those that only count on behind it. */
  readonly core: ReadonlySet<number>;
  readonly tail: ReadonlySet<number>;
  readonly dates: ReadonlySet<string>;
  readonly codes: readonly string[];
}

/** Holds the findings of severity minor or above against what was planted. */
export function judge(one: Case, { findings, verdict }: Pick<Findings, 'findings' | 'verdict'>): Verdict {
  const heavy = findings.filter(({ severity }) => severity !== 'note');
  const mistakes = one.planted.filter(({ traces }) => traces.length > 0).map((planted) => touchedBy(one, planted));
  const about = new Map<Planted, { readonly finding: Finding; readonly fit: number }[]>();
  const untrue: Finding[] = [];
  const offers = heavy.flatMap((finding): Offer[] => {
    const pictures = picturesOf(one, finding);
    const fits = mistakes.map((touched) => ({ touched, fit: fitOf(finding, pictures, touched) }));
    const fit = Math.max(0, ...fits.map((each) => each.fit));
    if (fit === 0) untrue.push(finding);
    return fit === 0 ? [] : [{ finding, fit, best: fits.flatMap((each) => (each.fit === fit ? [each.touched.planted] : [])) }];
  });
  const given = shared(offers);
  for (const { finding, fit, best } of offers) {
    const planted = given.get(finding) ?? best[0];
    if (planted !== undefined) about.set(planted, [...(about.get(planted) ?? []), { finding, fit }]);
  }
  const met = mistakes.map(({ planted, codes }): Met => {
    const list = [...(about.get(planted) ?? [])].sort((a, b) => b.fit - a.fit).map(({ finding }) => finding);
    const [first] = list;
    return {
      planted,
      findings: list,
      code: first !== undefined && codes.includes(first.code),
      side: first !== undefined && isRightSide(planted, first),
      owned: list.length > 0 && isOwned(one, planted, list),
    };
  });
  return { met, untrue, accepted: mistakes.some(({ planted }) => planted.edit.side === 'return') && verdict.decision === 'accept' };
}

/** A finding, and the mistakes that it fits best: more than one where it fits them equally well. */
interface Offer {
  readonly finding: Finding;
  readonly fit: number;
  readonly best: readonly Planted[];
}

/** Gives as many mistakes as possible a finding of their own where findings fit several equally well; each finding is about one. */
function shared(offers: readonly Offer[]): ReadonlyMap<Finding, Planted> {
  const owner = new Map<Planted, Offer>();
  const settle = (offer: Offer, seen: Set<Planted>): boolean =>
    offer.best.some((planted) => {
      if (seen.has(planted)) return false;
      seen.add(planted);
      const other = owner.get(planted);
      if (other !== undefined && !settle(other, seen)) return false;
      owner.set(planted, offer);
      return true;
    });
  for (const offer of offers) settle(offer, new Set());
  return new Map([...owner].map(([planted, { finding }]) => [finding, planted]));
}

/** A finding that names no frames is about all that it counts; one that does is about these. */
function isOwned(one: Case, { traces }: Planted, findings: readonly Finding[]): boolean {
  const named = findings.map((finding) => picturesOf(one, finding));
  if (named.includes(null)) return true;
  const twins = new Map(
    one.film.reels.flatMap(({ shots }) =>
      shots.flatMap(
        ({ picture, twin }) =>
          (twin === null
            ? []
            : [
                [picture, twin],
                [twin, picture],
              ]) as [number, number][],
      ),
    ),
  );
  return traces.every(({ key }) => {
    const [of, id] = key.split(' ');
    const picture = originalOf(Number(id));
    // of two takes of a page a finding may name either
    return of !== 'page' || named.some((pictures) => pictures?.has(picture) === true || pictures?.has(twins.get(picture) ?? -1) === true);
  });
}

function touchedBy(one: Case, planted: Planted): Touched {
  const core = new Set<number>();
  const counted = new Set<number>();
  const issues = new Set<number>();
  const see = (step: Step): void => {
    if (step.do === 'add') for (const id of step.ids) counted.add(id);
    else if (step.do === 'set' && step.of === 'frame') core.add(originalOf(step.id));
    else if (step.do === 'set' && step.of === 'issue') issues.add(step.id);
    else if (step.do !== 'set')
      (step.of === 'frame' ? core : issues).add(originalOf(Number(step.row[step.of === 'frame' ? 'picture' : 'id'])));
  };
  for (const step of planted.steps) see(step);
  for (const { key } of planted.traces) {
    const [of, id] = key.split(' ');
    if (of === 'document' || of === 'absent') issues.add(Number(id));
  }
  const pictures = one.scenery.film.reels.flatMap(({ shots }) => shots);
  for (const shot of pictures) if (shot.issue !== null && issues.has(shot.issue)) core.add(shot.picture);
  const own = core.size === 0 && issues.size === 0 ? counted : core;
  for (const shot of pictures) if (shot.issue !== null && own.has(shot.picture)) issues.add(shot.issue);
  return { planted, core: own, tail: counted, dates: datesOf(one, issues), codes: rightCodes(planted.edit, planted.traces) };
}

/** Dates of issues on both sides, as they should be and as they are. */
function datesOf(one: Case, issues: ReadonlySet<number>): ReadonlySet<string> {
  const dates = new Set<string>();
  for (const issue of issues) {
    for (const film of [one.scenery.film, one.film]) dates.add(film.issues[issue]?.date ?? '');
    for (const { source, date } of one.plan.issues) if (source === issue) dates.add(date);
  }
  dates.delete('');
  return dates;
}

/** Pictures of the frames that a finding names, by the record's numbers; null where it names none. */
function picturesOf({ film }: Case, { reel, at, frames }: Finding): ReadonlySet<number> | null {
  if (frames === null && at === null) return null;
  const found = new Set<number>();
  const onReel = (name: string | null): number => film.reels.findIndex(({ number }) => plain(number) === plain(name ?? ''));
  const add = (r: number, from: string, to: string): void => {
    const shots = film.reels[r]?.shots ?? [];
    // a record that has a number twice means either
    if (from === to) for (const shot of shots.filter(({ frame }) => frame === from)) found.add(originalOf(shot.picture));
    if (from === to) return;
    const [first, last] = [shots.findIndex((shot) => shot.frame === from), shots.findLastIndex((shot) => shot.frame === to)];
    for (const shot of first < 0 ? [] : shots.slice(first, last + 1)) found.add(originalOf(shot.picture));
  };
  if (at !== null) add(onReel(reel), at, at);
  if (frames?.list !== undefined)
    for (const name of frames.list) {
      const [box = null, frame = ''] = name.includes(':') ? name.split(':') : [reel, name];
      add(onReel(box), frame, frame);
    }
  else if (frames !== null) add(onReel(reel), frames.from, frames.to);
  return found;
}

const plain = (number: string): string => number.replace(/^0+/, '').toLowerCase();

/** How many of the mistakes of a case lie under at least one of the places, or next to it. */
export function lieUnder(one: Case, places: readonly { readonly reel: string; readonly exposure: number }[]): number {
  return one.planted.filter((planted) => {
    if (planted.traces.length === 0) return false;
    const { core } = touchedBy(one, planted);
    return one.film.reels.some(({ number, shots }) =>
      shots.some(
        (shot) =>
          core.has(shot.picture) && places.some(({ reel, exposure }) => reel === plain(number) && Math.abs(exposure - shot.exposure) <= 1),
      ),
    );
  }).length;
}

/** How well a finding fits an edit; 0 where it is not about it. A finding that names mostly frames that nobody touched is about something else. */
function fitOf(finding: Finding, pictures: ReadonlySet<number> | null, { planted, core, tail, dates, codes }: Touched): number {
  const copy = copyOf(planted.edit.what);
  const isOther = copy !== null && finding.repair.some(({ field }) => field !== null && field !== copy);
  const code = isOther ? 0 : (codes.includes(finding.code) ? 4 : 0) + (finding.field === fieldOf(planted.edit.what) ? 2 : 0);
  if (pictures === null) {
    if (finding.date !== null) return dates.has(finding.date) ? code + 1 : 0;
    return code > 0 || finding.places.some(({ document }) => isNamedAfter(document ?? '', dates)) ? code + 1 : 0;
  }
  const inCore = [...pictures].filter((picture) => core.has(picture)).length;
  const inTail = [...pictures].filter((picture) => tail.has(picture)).length;
  const place = inCore > 0 ? 2 : inTail > 0 || (finding.date !== null && dates.has(finding.date)) ? 1 : 0;
  if (place === 0) return 0;
  const known = [...pictures].filter((picture) => core.has(picture) || tail.has(picture)).length;
  return known * 2 >= pictures.size || (finding.date !== null && dates.has(finding.date)) ? code + place : 0;
}

/** The place where a fact is written a second time, as the vendor's list names it: that of one place is not told by a finding about another. */
function copyOf(what: Planted['edit']['what']): string | null {
  const [, source, fact] = /^(folder|manifest)(.+)$/.exec(what) ?? [];
  return fact === undefined ? null : `${fact.toLowerCase()} ${source === 'folder' ? 'folder name' : 'manifest'}`;
}

/** The field under which findings tell of what an edit changes. */
function fieldOf(what: Planted['edit']['what']): string {
  if (what === 'number') return 'frame';
  if (what === 'delivery') return 'deliver';
  return /^(?:folder|manifest)/.test(what) ? what.replace(/^(?:folder|manifest)/, '').toLowerCase() : what;
}

/** True for a document whose folder is one of those days. */
function isNamedAfter(document: string, dates: ReadonlySet<string>): boolean {
  return [...dates].some((date) => document.includes(date) || document.includes(date.replaceAll('-', '')));
}

/**
 * Where the sides can be told apart the one that did it; else neither, and an instruction that begins with a look at the film. What the return
 * leaves out may be held against it, since leaving out is far more usual than inventing, as long as the film is looked at all the same.
 */
function isRightSide({ edit, told, traces }: Planted, { cause, instruction }: Finding): boolean {
  if (!told) {
    const charged = cause === 'unclear' || (cause === 'vendor-metadata' && traces.some(({ silent }) => silent));
    return charged && (instruction === null || /\bfilm\b/i.test(instruction));
  }
  return edit.side === 'record' ? cause === 'collation' : cause === 'vendor-metadata' || cause === 'vendor-image';
}
