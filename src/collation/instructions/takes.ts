import { inSeries } from '../../normalise/in-series.js';
import { frameKey, reelNumber } from '../../normalise/labels.js';
import { about, folded, framesInWords, type Placed, pagesInWords, type ReelView, type Shot } from './view.js';

/** A page that is held back, and the frame that shows the same page. */
interface Held {
  readonly shot: Shot;
  readonly twin: Shot | null;
  /** The words of the record for a frame that is not in it. */
  readonly elsewhere: string | null;
}

/** Pages that are held back: which take is delivered, what is repeated, what is not wanted; runs folded. */
export function heldBack(view: ReelView): readonly Placed[] {
  const held = view.shots.filter(({ frame }) => frame.kind === 'page' && !frame.deliver).map((shot) => ({ shot, ...twinOf(view, shot) }));
  return folded(held, goOn).map((run) => toldOf(view, run));
}

function twinOf(view: ReelView, shot: Shot): Pick<Held, 'twin' | 'elsewhere'> {
  const pointer = shot.frame.duplicateOf ?? shot.frame.retakeOf;
  if (pointer !== null) {
    const twin = shotAt(view, shot, pointer);
    return { twin, elsewhere: twin === null ? pointer.text : null };
  }
  const delivered = [...view.shots, ...(view.shotsOfIssue.get(shot.frame.issue ?? -1) ?? [])].filter(({ frame }) => frame.deliver);
  const named = delivered.find((one) =>
    [one.frame.duplicateOf, one.frame.retakeOf].some((other) => other !== null && shotAt(view, one, other) === shot),
  );
  const alike = delivered.find(
    ({ frame }) =>
      frame.issue !== null &&
      frame.issue === shot.frame.issue &&
      frame.section === shot.frame.section &&
      frame.pageKey !== null &&
      frame.pageKey === shot.frame.pageKey,
  );
  return { twin: named ?? alike ?? null, elsewhere: null };
}

/** The frame that another one names. */
function shotAt(
  { side, shots, at, shotsOfIssue }: ReelView,
  from: Shot,
  pointer: { readonly reel: string | null; readonly frame: string },
): Shot | null {
  const reel = pointer.reel === null ? from.reel : side.reels.findIndex(({ number }) => number === reelNumber(pointer.reel ?? ''));
  const pool = reel === at ? shots : [...shotsOfIssue.values()].flat().filter((shot) => shot.reel === reel);
  return pool.find(({ frame }) => frame.frame !== null && frameKey(frame.frame) === pointer.frame) ?? null;
}

function goOn(before: Held, held: Held): boolean {
  if (held.shot.at !== before.shot.at + 1) return false;
  if (held.twin !== null && before.twin !== null)
    return (
      held.twin.reel === before.twin.reel && held.twin.at === before.twin.at + 1 && held.twin.frame.deliver === before.twin.frame.deliver
    );
  if (held.twin !== null || before.twin !== null || held.elsewhere !== null || before.elsewhere !== null) return false;
  return conditionOf(held.shot) === conditionOf(before.shot);
}

const conditionOf = ({ frame }: Shot): string => frame.condition.join(', ');

function toldOf(view: ReelView, run: readonly Held[]): Placed {
  const shots = run.map(({ shot }) => shot);
  const many = shots.length > 1;
  const twins = run.flatMap(({ twin }) => twin ?? []);
  const pages = pagesInWords(shots.map(({ entry }) => entry.page));
  const elsewhere = run[0]?.elsewhere ?? null;
  const because = shots[0] === undefined || conditionOf(shots[0]) === '' ? '' : ` (${conditionOf(shots[0])})`;
  if (twins.length > 0) {
    const others = framesInWords(view, twins);
    if (run.some(({ shot, twin }) => twin !== null && twin.frame.pageKey !== shot.frame.pageKey)) {
      const shown = pagesInWords(twins.map(({ entry }) => entry.page));
      return about(
        view,
        'held back',
        shots,
        `${pages}${because}, recorded as repeating ${others}, ${shown}: hold ${many ? 'them' : 'it'} back.`,
      );
    }
    if (twins.every(({ frame }) => frame.deliver)) {
      const choice = `deliver ${others} and hold ${many ? 'these' : 'this one'} back.`;
      return about(view, 'take', shots, `${pages}${because} ${many ? 'are' : 'is'} also on ${others}: ${choice}`);
    }
    return about(view, 'held back', shots, `${many ? 'repeat' : 'repeats'} ${others}, ${pages}: hold ${many ? 'them' : 'it'} back.`);
  }
  if (elsewhere !== null) {
    const at = elsewhere.lastIndexOf(':');
    const where = at < 0 ? `frame ${elsewhere}` : `frame ${elsewhere.slice(at + 1).trim()} of reel ${elsewhere.slice(0, at).trim()}`;
    return about(
      view,
      'held back',
      shots,
      `${pages}${because} ${many ? 'are' : 'is'} also on ${where}: hold ${many ? 'them' : 'it'} back here.`,
    );
  }
  const issues = [...new Set(shots.map(({ frame }) => frame.issue))];
  const what =
    issues.length === 1 ? (isWhole(view, issues[0] ?? null, shots) ? 'the whole issue' : pages) : `${String(issues.length)} issues`;
  return about(view, 'held back', shots, `${what}${because}: scan and count, but do not deliver.`);
}

function isWhole({ shotsOfIssue }: ReelView, issue: number | null, shots: readonly Shot[]): boolean {
  return (shotsOfIssue.get(issue ?? -1) ?? []).length === shots.length && shots.length > 1;
}

/** Pages of which two frames are delivered, since each is damaged elsewhere. */
export function keptBoth(view: ReelView): readonly Placed[] {
  return view.shots.flatMap((shot): readonly Placed[] => {
    const pointer = shot.frame.duplicateOf ?? shot.frame.retakeOf;
    const twin = pointer === null || !shot.frame.deliver ? null : shotAt(view, shot, pointer);
    if (twin?.frame.deliver !== true) return [];
    const places = [twin, shot].flatMap(({ frame }) => (frame.order === null ? [] : [String(frame.order)]));
    const as = places.length < 2 ? '' : `, as places ${inSeries(places)} of the issue`;
    const shown =
      twin.frame.pageKey === shot.frame.pageKey
        ? `both show ${pagesInWords([shot.entry.page])}`
        : `${pagesInWords([twin.entry.page])}, and ${pagesInWords([shot.entry.page])}, recorded as repeating it`;
    return [about(view, 'kept both', [twin, shot], `${shown}: deliver both${as}.`, shot.at)];
  });
}
