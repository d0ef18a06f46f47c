import type { AbsentEntry, FrameEntry, ReelEntry } from '../model/collation-record.js';
import { keptInMind } from './kept.js';
import { compareLabels, labelKey, sectionLabel, spreadLabel, withoutSection } from './labels.js';
import type { IssueKeys } from './record-issues.js';

/** A page of an issue, delivered, held back or absent, as it is put in order. */
interface Leaf {
  readonly section: string;
  /** The number in the label, null where it has none. */
  readonly number: number | null;
  /** The last number of a label that names several pages on one image: they hold one place together. */
  readonly last: number | null;
  readonly label: string;
  readonly given: number | null;
  /** A held-back frame has no order of its own; it keeps the place of a page that nothing else shows. */
  readonly held: boolean;
  readonly set: (order: number) => void;
}

/** Wider holes are no pages that nobody wrote down, but labels of another kind. */
const WIDEST_HOLE = 100;
const LAST_PLACE = 9999;
/** Before the section of pages of a supplement, which stand behind the pages of their issue. */
const SUPPLEMENT = 'supplement: ';

/**
 * Fills in the order of pages where the record gives none: sections by first appearance, a supplement behind them all, inside a section by
 * the number in the label, not by place on film. Absent pages take their place, pages that nobody wrote down leave a hole. Orders that are given stay; the
 * missing ones of the same issue are filled in only where the others agree with this rule. `keys` are those of the issues.
 */
export function withOrders(reels: readonly ReelEntry[], keys: IssueKeys): readonly ReelEntry[] {
  const open = openIssues(reels, keys);
  if (open.size === 0) return reels;
  const issues = new Map<string, Leaf[]>();
  const add = (key: string | null | undefined, entry: Facts, set: Leaf['set']): void => {
    if (key == null || !open.has(key)) return;
    const leaves = issues.get(key);
    if (leaves === undefined) issues.set(key, [leafOf(entry, set)]);
    else leaves.push(leafOf(entry, set));
  };
  const copies = reels.map(({ absent, ...reel }) => ({
    ...reel,
    frames: [...reel.frames],
    ...(absent === undefined ? {} : { absent: [...absent] }),
  }));
  copies.forEach(({ frames }, reel) => {
    for (const [at, frame] of frames.entries())
      if ((frame.kind ?? 'page') === 'page') add(keys.frames[reel]?.[at], frame, (order) => void (frames[at] = { ...frame, order }));
  });
  copies.forEach((copy, reel) => {
    const absent: AbsentEntry[] = copy.absent ?? [];
    for (const [at, entry] of absent.entries())
      if (isAbsentPage(entry)) add(keys.absent[reel]?.[at], entry, (order) => void (absent[at] = { ...entry, order }));
  });
  for (const leaves of issues.values()) number(leaves);
  return copies;
}

type Facts = Pick<FrameEntry, 'page' | 'section' | 'supplement' | 'deliver' | 'order'>;

const isAbsentPage = ({ page, dateTo }: AbsentEntry): boolean => page !== undefined && dateTo === undefined;

/** The issues of which a page has no order; in the others there is nothing to fill in. */
function openIssues(reels: readonly ReelEntry[], keys: IssueKeys): ReadonlySet<string> {
  const open = new Set<string>();
  const look = (key: string | null | undefined, { order, deliver }: Facts): void => {
    if (key != null && order === undefined && deliver !== false) open.add(key);
  };
  for (const [reel, { frames, absent = [] }] of reels.entries()) {
    for (const [at, frame] of frames.entries()) if ((frame.kind ?? 'page') === 'page') look(keys.frames[reel]?.[at], frame);
    for (const [at, entry] of absent.entries()) if (isAbsentPage(entry)) look(keys.absent[reel]?.[at], entry);
  }
  return open;
}

/** What a label tells of the place of its page; the same labels come again in every issue. */
const labelled = keptInMind((label: string): Pick<Leaf, 'number' | 'last'> & { readonly letters: string } => {
  const [, letters = '', digits] = /^([A-Z]{0,3})[-. ]?(\d{1,5})(?!\d)/.exec(label) ?? [];
  return { letters, number: digits === undefined ? null : Number(digits), last: spreadLabel(label)?.last ?? null };
});

function leafOf(entry: Facts, set: Leaf['set']): Leaf {
  const section = entry.section === undefined ? null : sectionLabel(entry.section);
  const label = labelKey(withoutSection(entry.page ?? '', section));
  const { letters, number: digits, last } = labelled(label);
  return {
    // A label such as S1 belongs to a section of its own, whether or not the section is written beside it.
    section: `${entry.supplement === true ? SUPPLEMENT : ''}${section ?? ''} ${letters}`,
    number: digits,
    last,
    label,
    given: entry.order ?? null,
    held: entry.deliver === false,
    set,
  };
}

function number(leaves: readonly Leaf[]): void {
  const shown = new Set(leaves.filter((leaf) => !leaf.held).map((leaf) => `${leaf.section} ${leaf.label}`));
  const placed = leaves.filter((leaf) => !leaf.held || (leaf.number !== null && !shown.has(`${leaf.section} ${leaf.label}`)));
  const visible = placed.filter((leaf) => !leaf.held);
  if (visible.every((leaf) => leaf.given !== null)) return;
  const orders = computed(placed);
  if (visible.some((leaf) => leaf.given !== null && leaf.given !== orders.get(leaf))) return;
  for (const leaf of visible) {
    const order = orders.get(leaf);
    if (order !== undefined && order <= LAST_PLACE) leaf.set(order);
  }
}

function computed(leaves: readonly Leaf[]): ReadonlyMap<Leaf, number> {
  const orders = new Map<Leaf, number>();
  const all = [...new Set(leaves.map((leaf) => leaf.section))];
  const behind = (section: string): boolean => section.startsWith(SUPPLEMENT);
  const sections = [...all.filter((section) => !behind(section)), ...all.filter(behind)];
  let place = 0;
  for (const [at, section] of sections.entries()) {
    const sorted = inOrder(leaves.filter((leaf) => leaf.section === section));
    const first = sorted.find((leaf) => leaf.number !== null)?.number ?? 1;
    // Pages 2 to 8 begin behind a page that nobody wrote down; 401 to 416 are a running pagination.
    let last = at === 0 && first <= sorted.length ? 0 : first - 1;
    let unnumbered = 0;
    let before: Leaf | null = null;
    for (const leaf of sorted) {
      if (leaf.number === null) unnumbered += 1;
      else {
        const hole = leaf.number - last - 1 - unnumbered;
        if (hole > 0 && hole <= WIDEST_HOLE) place += hole;
        if (leaf.number !== last) unnumbered = 0;
        last = leaf.last ?? leaf.number;
      }
      // A held-back page that was filmed twice holds one place.
      if (!(leaf.held && before?.held === true && before.label === leaf.label)) place += 1;
      orders.set(leaf, place);
      before = leaf;
    }
  }
  return orders;
}

/** By the label; a page without a number stays behind the one that it follows on film. */
function inOrder(leaves: readonly Leaf[]): readonly Leaf[] {
  const keyed: { readonly leaf: Leaf; readonly behind: Leaf | null }[] = [];
  let behind: Leaf | null = null;
  for (const leaf of leaves) {
    if (leaf.number !== null) behind = leaf;
    keyed.push({ leaf, behind });
  }
  return keyed
    .map((entry, at) => ({ ...entry, at }))
    .sort((a, b) => compareLeaves(a.behind, b.behind) || a.at - b.at)
    .map(({ leaf }) => leaf);
}

function compareLeaves(a: Leaf | null, b: Leaf | null): number {
  if (a === null || b === null) return (a === null ? 0 : 1) - (b === null ? 0 : 1);
  return (a.number ?? 0) - (b.number ?? 0) || compareLabels(a.label, b.label);
}
