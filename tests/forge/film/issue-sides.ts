import type { Random } from './random.js';

/** One page side of an issue, in the order it was filmed. */
export interface Side {
  readonly page: string;
  readonly printed: string | null;
  readonly section: string | null;
  readonly supplement: boolean;
  readonly order: number;
  readonly blank: boolean;
}

/** How the pages of one issue are laid out: plain numbers, sections, a supplement, running numbers. */
export interface Layout {
  readonly pages: number;
  readonly firstLabel: number;
  readonly sections: boolean;
  readonly supplement: 'none' | 'inside' | 'behind';
  readonly frontUnnumbered: boolean;
}

/** The sides of an issue in filming order; `order` is the reading order. */
export function sidesOf(layout: Layout): Side[] {
  const half = layout.pages / 2;
  const main: Side[] = [];
  for (let n = 1; n <= layout.pages; n += 1) {
    const letter = !layout.sections ? null : n <= half ? 'A' : 'B';
    const inSection = letter === 'B' ? n - half : n;
    const page = letter === null ? String(layout.firstLabel + n - 1) : `${letter}${inSection}`;
    const printed = n === 1 && layout.frontUnnumbered ? '-' : null;
    main.push({ page, printed, section: letter, supplement: false, order: n, blank: false });
  }
  if (layout.supplement === 'none') return main;
  const extra = [1, 2].map((n) => ({
    page: `S${n}`,
    printed: null,
    section: 'S',
    supplement: true,
    order: layout.pages + n,
    blank: false,
  }));
  if (layout.supplement === 'behind') return [...main, ...extra];
  return [...main.slice(0, 2), ...extra, ...main.slice(2)];
}

/** A page that prints the number of another page: a repeated number, a jump or two digits changed over. */
export function mispaged(sides: readonly Side[], random: Random): Side[] {
  const plain = sides.filter((side) => /^\d+$/.test(side.page) && side.printed === null && side.order > 1);
  if (plain.length < 2) return [...sides];
  const wrong = random.pick(plain);
  const n = Number(wrong.page);
  const printed = random.pick([String(n + 2), String(n - 1), String(n + 10)]);
  return sides.map((side) => (side === wrong ? { ...side, printed } : side));
}

/** A side with nothing on it; it belongs to the issue and keeps its place. */
export function withBlankSide(sides: readonly Side[]): Side[] {
  const last = sides.reduce((a, b) => (a.order > b.order ? a : b));
  return sides.map((side) => (side === last ? { ...side, printed: '-', blank: true } : side));
}

/** Two neighbouring sides filmed the wrong way round; both keep their labels and order. */
export function filmedOutOfOrder(sides: readonly Side[], random: Random): Side[] {
  const at = 1 + random.below(sides.length - 2);
  const one = sides[at];
  const two = sides[at + 1];
  if (one === undefined || two === undefined) return [...sides];
  return [...sides.slice(0, at), two, one, ...sides.slice(at + 2)];
}
