import {
  about,
  folded,
  framesInWords,
  grouped,
  issuesOn,
  labelsInWords,
  type Placed,
  pagesInWords,
  type ReelView,
  type Shot,
} from './view.js';

/** Pages on which another number is printed than theirs, or none. */
export function labels(view: ReelView): readonly Placed[] {
  const pages = view.shots.filter(({ frame }) => frame.kind === 'page' && frame.deliver && frame.pagePrintedKey !== null);
  const other = pages.filter(({ frame }) => frame.pagePrintedKey !== '-' && frame.pagePrintedKey !== frame.pageKey);
  const runs = folded(other, (before, shot) => shot.at === before.at + 1 && shot.frame.issue === before.frame.issue);
  return [
    ...unnumbered(
      view,
      pages.filter(({ frame }) => frame.pagePrintedKey === '-'),
    ),
    ...runs.map((run) => mispaged(view, run)),
  ];
}

function mispaged(view: ReelView, run: readonly Shot[]): Placed {
  const many = run.length > 1;
  const printed = run.map(({ entry }) => entry.pagePrinted ?? '');
  const wanted = run.flatMap(({ entry }) => entry.page ?? []);
  const { pageNumber } = view.policies;
  const how =
    pageNumber === 'either'
      ? 'either may be given'
      : pageNumber === 'printed'
        ? `give ${labelsInWords(printed)}, as printed`
        : `give ${labelsInWords(wanted)}`;
  const is = wanted.length < run.length ? '' : `, ${many ? 'are' : 'is'} ${pagesInWords(wanted)}`;
  return about(view, 'mispaged', run, `printed ${labelsInWords(printed)}${is}: ${how}.`);
}

/** Told of the reel as a whole: on many papers no first page has a number. */
function unnumbered(view: ReelView, shots: readonly Shot[]): readonly Placed[] {
  const { unnumberedPage } = view.policies;
  if (shots.length === 0 || unnumberedPage === 'either') return [];
  const firsts = view.shots.filter(({ frame }) => frame.kind === 'page' && frame.deliver && frame.order === 1);
  const bare = shots.filter(({ frame }) => frame.order === 1);
  const isRule = bare.length >= RULE && bare.length * 2 > firsts.length;
  const rest = isRule ? shots.filter((shot) => !bare.includes(shot)) : shots;
  const how = (page: string): string => (unnumberedPage === 'omit' ? 'give none' : `give ${page}`);
  const numbered = firsts.filter((shot) => !bare.includes(shot));
  const but = numbered.length === 0 ? '' : `, but for ${framesInWords(view, numbered)}`;
  const label = bare[0]?.entry.page ?? '1';
  const rule = isRule ? [about(view, 'mispaged', [], `no page number is printed on the first page of an issue${but}: ${how(label)}.`)] : [];
  const groups = grouped(rest, ({ entry }) => (unnumberedPage === 'omit' ? '' : (entry.page ?? '')));
  return [
    ...rule,
    ...groups.flatMap(([page, list]) =>
      page === '' && unnumberedPage !== 'omit'
        ? []
        : [about(view, 'mispaged', list, `no page number is printed: ${how(page)}.`, list.length < RULE ? undefined : -1)],
    ),
  ];
}

/** So many first pages without a number are told as a rule. */
const RULE = 4;

/** Issues whose pages lie on the film in another order than their own. */
export function order(view: ReelView): readonly Placed[] {
  return issuesOn(view).flatMap(({ index }): readonly Placed[] => {
    const all = (view.shotsOfIssue.get(index) ?? []).filter(({ frame }) => frame.deliver && frame.kind === 'page' && frame.order !== null);
    const main = all.filter(({ frame }) => !frame.supplement);
    // Told once, on the reel on which the issue begins.
    if (main[0]?.reel !== view.at || isAscending(main)) return [];
    const right = main.toSorted((a, b) => (a.frame.order ?? 0) - (b.frame.order ?? 0));
    return [about(view, 'order', main, `the pages lie out of order; in their order they are ${framesInWords(view, right)}.`)];
  });
}

function isAscending(shots: readonly Shot[]): boolean {
  return shots.every(({ frame }, at) => at === 0 || (frame.order ?? 0) > (shots[at - 1]?.frame.order ?? 0));
}

/** Supplements, with their place in the issue. */
export function supplements(view: ReelView): readonly Placed[] {
  return issuesOn(view).flatMap(({ own }) => {
    const pages = own.filter(({ frame }) => frame.deliver && frame.kind === 'page');
    const main = pages.filter(({ frame }) => !frame.supplement);
    const extra = pages.filter(({ frame }) => frame.supplement);
    return folded(extra, (before, shot) => shot.at === before.at + 1).map((run) => {
      const next = main.find(({ at }) => at > (run.at(-1)?.at ?? 0));
      const filmed = next === undefined ? '' : `, filmed before ${pagesInWords([next.entry.page])}`;
      const places = run.flatMap(({ frame }) => (frame.order === null ? [] : [String(frame.order)]));
      const first = Math.min(...places.map(Number));
      const before = main.findLast(({ frame }) => frame.order !== null && frame.order < first);
      const behind = before === undefined ? '' : ` behind ${pagesInWords([before.entry.page])}`;
      const where = places.length === 0 ? '' : `: put it${behind}, as ${places.length === 1 ? 'place' : 'places'} ${labelsInWords(places)}`;
      return about(
        view,
        'supplement',
        run,
        `a supplement of the issue, ${pagesInWords(run.map(({ entry }) => entry.page))}${filmed}${where}.`,
      );
    });
  });
}

/** Sections, told of the reel as a whole. */
export function sections(view: ReelView): readonly Placed[] {
  const shots = view.shots.filter(({ frame }) => frame.deliver && frame.section !== null);
  return grouped(shots, ({ frame }) => frame.section ?? '').map(([section, list]) =>
    about(view, 'section', list, `section ${section}; give it with each page.`, -1),
  );
}

/** Numbers of frames that the record passes over: the counter jumped there, or a frame was not written down. */
export function passedOver(view: ReelView): readonly Placed[] {
  return view.shots.flatMap((shot, at) => {
    const [before, here] = [view.shots[at - 1]?.frame.frame, shot.frame.frame];
    if (before == null || here === null || here.exposure <= before.exposure + 1) return [];
    const [from, to] = [before.exposure + 1, here.exposure - 1].map(String);
    const numbers = from === to ? `no frame ${from ?? ''}` : `no frames ${from ?? ''} to ${to ?? ''}`;
    return [
      about(
        view,
        'frame numbers',
        [shot],
        `follows frame ${before.text}, and the record has ${numbers}: number the frames as they are counted here.`,
      ),
    ];
  });
}

/** Exposures that hold two pages, and those between them that hold one. */
export function halves(view: ReelView): readonly Placed[] {
  const lettered = view.shots.filter(({ frame }) => (frame.frame?.half ?? '') !== '');
  if (lettered.length === 0) return [];
  const exposures = new Map<number, Shot[]>();
  for (const shot of lettered) {
    const exposure = shot.frame.frame?.exposure ?? 0;
    const list = exposures.get(exposure);
    if (list === undefined) exposures.set(exposure, [shot]);
    else list.push(shot);
  }
  const whole = [...exposures.values()].filter((shots) => shots.length > 1).flat();
  const lone = [...exposures.values()].filter((shots) => shots.length === 1).flat();
  const said: Placed[] = [];
  if (whole.length > 0) {
    const numbers =
      view.policies.splitExposures === 'separate'
        ? `give each half a number of its own, counted on from frame ${view.shots[0]?.entry.frame ?? ''}`
        : 'number the halves A and B';
    said.push(about(view, 'split', whole, `each exposure holds two pages: cut it in two and ${numbers}; ${sides(view, whole)}.`, -1));
  }
  if (lone.length > 0)
    said.push(about(view, 'split', lone, 'only this half of the exposure is on the record: deliver nothing for the other.'));
  const single = view.shots.filter(({ frame }) => frame.kind === 'page' && frame.frame?.half === '');
  if (single.length > 0 && whole.length > single.length)
    said.push(about(view, 'split', single, `one page fills the whole exposure: do not cut ${single.length === 1 ? 'it' : 'them'}.`, -1));
  return said;
}

/** Which half comes first, by the reading direction of the titles concerned. */
function sides(view: ReelView, shots: readonly Shot[]): string {
  const ids = new Set(shots.map(({ frame }) => view.side.issues[frame.issue ?? -1]?.title ?? null));
  const directions = new Set(
    view.side.titles.filter(({ id }) => ids.size === 0 || ids.has(id)).map(({ readingDirection }) => readingDirection),
  );
  if (directions.size > 1) return 'A is the half that is read first, the right one where the paper is read from right to left';
  return directions.has('rtl') ? 'A is the right half' : 'A is the left half';
}

/** The targets of the film, where the agreement says what is to be done with them. */
export function targets(view: ReelView): readonly Placed[] {
  const shots = view.shots.filter(({ frame }) => frame.kind === 'target');
  const { targets: policy } = view.policies;
  if (shots.length === 0 || policy === 'either') return [];
  return [about(view, 'targets', shots, policy === 'listed' ? 'targets: list them with the reel.' : 'targets: do not list them.', -1)];
}

/** Damage that is no reason to hold a page back. */
export function conditions(view: ReelView): readonly Placed[] {
  const found = view.shots
    .filter(({ frame }) => frame.deliver)
    .flatMap((shot) => shot.frame.condition.map((word) => ({ word: word.trim(), shot })));
  return grouped(found, ({ word }) => word.toLowerCase()).map(([, list]) =>
    about(
      view,
      'condition',
      list.map(({ shot }) => shot),
      `${list[0]?.word ?? ''}; deliver as ${list.length === 1 ? 'it is' : 'they are'}.`,
      -1,
    ),
  );
}

/** Frames other than pages that are delivered all the same. */
export function otherDelivered(view: ReelView): readonly Placed[] {
  const shots = view.shots.filter(({ frame }) => frame.deliver && frame.kind !== 'page' && frame.kind !== 'target');
  return folded(shots, (before, shot) => shot.at === before.at + 1 && shot.frame.kind === before.frame.kind).map((run) =>
    about(
      view,
      'held back',
      run,
      `${run[0]?.frame.kind === 'other' ? 'no page' : `a ${run[0]?.frame.kind ?? ''}`}, to be delivered all the same.`,
    ),
  );
}

/** What the library's own columns say, of those that may leave the house. */
export function ownColumns(
  view: ReelView,
  cells: readonly { readonly shot: Shot; readonly head: string; readonly text: string }[],
): readonly Placed[] {
  return grouped(cells, ({ head, text }) => JSON.stringify([head, text])).map(([, list]) =>
    about(
      view,
      'own column',
      list.map(({ shot }) => shot),
      `${list[0]?.head ?? ''}: ${list[0]?.text ?? ''}.`.replace(/\.\.$/, '.'),
    ),
  );
}
