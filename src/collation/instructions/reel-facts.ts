import type { FrameKind } from '../../model/collation-record.js';
import type { ReelFact } from '../../model/instructions.js';
import { inSeries } from '../../normalise/in-series.js';
import { folded, framesInWords, grouped, issuesOn, type ReelView, type Shot, titleInWords } from './view.js';

/** MARC 21 field 007 for microforms, position 03. */
const POLARITY: Readonly<Record<string, string>> = { a: 'positive', b: 'negative', m: 'mixed', u: 'not known' };

/** What a scanning operator must know of a reel before the film is threaded. */
export function reelFacts(view: ReelView): readonly ReelFact[] {
  const { reel, shots } = view;
  const delivered = shots.filter(({ frame }) => frame.deliver);
  const held = shots.filter(({ frame }) => !frame.deliver);
  const splices = spliced(view);
  return [
    ...given('Box label', reel.boxLabel),
    ...titles(view),
    ...given('Carrier', reel.carrier === 'print' ? 'volumes of paper; frames are places, counted on' : undefined),
    ...given(
      'Position',
      withChanges(view, reel.position, ({ entry }) => entry.position),
    ),
    ...given('Polarity', reel.polarity === undefined ? undefined : (POLARITY[reel.polarity] ?? reel.polarity)),
    ...given(
      'Reduction',
      withChanges(view, reel.reduction, ({ entry }) => entry.reduction),
    ),
    ...(splices === null ? [] : [{ name: 'Splices', text: splices }]),
    { name: 'Reading direction', text: direction(view) },
    {
      name: 'Frames',
      text: `${String(shots.length)}${shots.length === 0 ? '' : ` (${shots[0]?.entry.frame ?? ''} to ${shots.at(-1)?.entry.frame ?? ''})`}`,
    },
    { name: 'To deliver', text: amounts(view, delivered, false) },
    { name: 'Held back', text: held.length === 0 ? 'none' : amounts(view, held, true) },
  ];
}

function given(name: string, text: string | undefined): readonly ReelFact[] {
  return text === undefined || text.trim() === '' ? [] : [{ name, text }];
}

function titles(view: ReelView): readonly ReelFact[] {
  const onReel = grouped(
    issuesOn(view).map(({ issue }) => issue),
    ({ title }) => title ?? '',
  );
  const texts = onReel.map(([id, issues]) => {
    const days = issues.flatMap(({ date }) => date?.day ?? []).toSorted();
    const [first, last] = [days[0], days.at(-1)];
    const span = first === undefined || last === undefined ? '' : first === last ? `, ${first}` : `, ${first} to ${last}`;
    return `${titleInWords(view, id === '' ? null : id)}${span}, ${String(issues.length)} ${issues.length === 1 ? 'issue' : 'issues'}`;
  });
  return texts.length === 0 ? [] : [{ name: texts.length === 1 ? 'Title' : 'Titles', text: texts.join('; ') }];
}

/** What holds for the reel, and from which frame on something else does. */
function withChanges(view: ReelView, first: string | undefined, of: (shot: Shot) => string | undefined): string | undefined {
  const changes: string[] = [];
  let now = first;
  for (const shot of view.shots) {
    const here = of(shot);
    if (here === undefined || here === now) continue;
    changes.push(now === undefined && shot.at === 0 ? here : `${here} from frame ${shot.entry.frame} on`);
    now = here;
  }
  const parts = [...(first === undefined ? [] : [first]), ...changes];
  return parts.length === 0 ? undefined : parts.join('; ');
}

/** The reels that were spliced together, each with its frames. */
function spliced(view: ReelView): string | null {
  const runs = folded(view.shots, (before, shot) => before.frame.sourceReel?.number === shot.frame.sourceReel?.number);
  if (runs.every(([shot]) => shot?.frame.sourceReel == null)) return null;
  const parts = runs.map((run) => {
    const from = run[0]?.frame.sourceReel?.text;
    return `${from === undefined ? 'no source reel noted' : `reel ${from}`}: ${framesInWords(view, run)}`;
  });
  const number =
    view.policies.reelNumber === 'source'
      ? 'each page carries the number of its source reel'
      : `every page carries the number ${view.reel.number}`;
  return `${parts.join('; ')}; ${number}`;
}

function direction({ side, shots }: ReelView): string {
  const ids = new Set(shots.flatMap(({ frame }) => (frame.issue === null ? [] : (side.issues[frame.issue]?.title ?? null))));
  const here = side.titles.filter(({ id }) => ids.size === 0 || ids.has(id));
  const rtl = here.filter(({ readingDirection }) => readingDirection === 'rtl');
  if (rtl.length === 0) return 'left to right';
  return rtl.length === here.length ? 'right to left' : `left to right; ${inSeries(rtl.map(({ name }) => name))} right to left`;
}

const PLURALS: Readonly<Record<FrameKind, readonly [string, string]>> = {
  page: ['page', 'pages'],
  blank: ['blank', 'blanks'],
  target: ['target', 'targets'],
  void: ['spoilt exposure', 'spoilt exposures'],
  other: ['other exposure', 'other exposures'],
};

/** `22: 3 targets (frames 1 to 3), 1 blank (frame 20), 18 pages (below)`. */
function amounts(view: ReelView, shots: readonly Shot[], named: boolean): string {
  const kinds = grouped(shots, ({ frame }) => frame.kind).map(([kind, list]) => {
    const [one, many] = PLURALS[kind as FrameKind];
    const where = named ? (kind === 'page' ? ' (below)' : ` (${framesInWords(view, list)})`) : '';
    return `${String(list.length)} ${list.length === 1 ? one : many}${where}`;
  });
  return kinds.length === 1 && !named ? (kinds[0] ?? '') : `${String(shots.length)}: ${kinds.join(', ')}`;
}
