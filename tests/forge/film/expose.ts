import type { FrameKind } from '../../../src/model/collation-record.js';
import type { Side } from './issue-sides.js';
import type { Published } from './publish.js';
import type { Random } from './random.js';

/** One thing before the camera. Identity matters: a repeat names what it repeats by reference. */
export interface Sitting {
  readonly kind: FrameKind;
  readonly published: Published | null;
  readonly side: Side | null;
  readonly deliver: boolean;
  /** The other picture of the same page. */
  readonly repeats: Sitting | null;
  /** True when `repeats` is a ruined take that this one makes good. */
  readonly makesGood: boolean;
  readonly condition: readonly string[];
  readonly note: string | null;
}

/** One click of the camera: one sitting, or two pages side by side. */
export type Exposure = readonly Sitting[];

/** A frame that shows no page: a blank, a ruined exposure or a target. */
export function plain(kind: FrameKind, note: string | null = null): Sitting {
  return { kind, published: null, side: null, deliver: false, repeats: null, makesGood: false, condition: [], note };
}

/** The page of an issue as it was filmed for delivery. */
export function page(published: Published, side: Side): Sitting {
  return { ...plain('page'), published, side, deliver: true };
}

/** Pages two by two where they lie open side by side: an even page left, the odd one after it right, also across two issues. */
export function paired(sittings: readonly Sitting[]): Exposure[] {
  const out: Exposure[] = [];
  for (let i = 0; i < sittings.length; i += 1) {
    const one = sittings[i];
    const two = sittings[i + 1];
    if (one === undefined) continue;
    if (two !== undefined && opensWith(one, two)) {
      out.push([one, two]);
      i += 1;
    } else out.push([one]);
  }
  return out;
}

function opensWith(left: Sitting, right: Sitting): boolean {
  if (left.kind !== 'page' || right.kind !== 'page' || left.side === null || right.side === null) return false;
  if (left.published?.issue.title !== right.published?.issue.title || left.deliver !== right.deliver) return false;
  return left.side.order % 2 === 0 && right.side.order % 2 === 1;
}

/** Doubles, ruined takes and punched frames that the film has for the oddities of its issues; `late` is what was refilmed at the reel's end. */
export function retaken(exposures: readonly Exposure[], random: Random): { readonly film: Exposure[]; readonly late: Exposure[] } {
  const film: Exposure[] = [];
  const late: Exposure[] = [];
  const done = new Set<Published>();
  for (const exposure of exposures) {
    const published = exposure[0]?.published ?? null;
    const oddity = published?.oddity ?? 'none';
    const eligible = published !== null && !done.has(published) && exposure.every(isPlainPage);
    const now = eligible && (random.chance(400) || isLast(published, exposure));
    if (!now || !['duplicate', 'retake', 'retake-at-end', 'void'].includes(oddity)) {
      film.push(exposure);
      continue;
    }
    done.add(published);
    if (oddity === 'void') film.push([plain('void', 'punched')], exposure);
    else if (oddity === 'duplicate') film.push(exposure, exposure.map(doubled));
    else {
      const ruined = exposure.map((each) => ({
        ...each,
        deliver: false,
        condition: [random.pick(['out of focus', 'fogged', 'page folded'])],
      }));
      const good = exposure.map((each, i) => ({ ...each, repeats: ruined[i] ?? null, makesGood: true }));
      film.push(ruined);
      (oddity === 'retake' ? film : late).push(good);
    }
  }
  return { film, late };
}

/** A page filmed once; an issue that was filmed twice as a whole is left as it is. */
function isPlainPage(sitting: Sitting): boolean {
  return sitting.deliver && sitting.repeats === null && sitting.published?.oddity !== 'filmed-twice';
}

function isLast(published: Published, exposure: Exposure): boolean {
  const last = published.sides.at(-1);
  return exposure.some((each) => each.side === last && each.published === published);
}

function doubled(sitting: Sitting): Sitting {
  return { ...sitting, deliver: false, repeats: sitting };
}

/** A whole issue before the camera, twice where it was refilmed and the first take left on the film. */
export function sittingsOf(published: Published): Sitting[] {
  const good = published.sides.map((side) => page(published, side));
  if (published.oddity !== 'filmed-twice') return good;
  return [...good.map((each) => ({ ...each, deliver: false, repeats: each, condition: ['faint'] })), ...good];
}
