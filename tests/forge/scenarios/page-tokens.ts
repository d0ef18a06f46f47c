/** One page as a line of a film names it, such as `3`, `x3=12`, `7(9)`, `B2`, `[5]`. */
export interface PageToken {
  readonly page: string;
  /** Letters in front of the number: the section. */
  readonly section: string | null;
  /** What the paper prints instead; `-` for nothing, null where it prints the label. */
  readonly printed: string | null;
  readonly held: boolean;
  /** Part of a supplement. */
  readonly supplement: boolean;
  /** Filmed to replace the held-back frame of the same page. */
  readonly retake: boolean;
  /** The frame it duplicates, where the line says so. */
  readonly duplicateOf: string | null;
  /** Not on the film, and whether it was published. */
  readonly wanting: 'yes' | 'unknown' | null;
}

const SHAPE = /^(\[?)(\+?)(x?)([A-Z]*)(\d+)(?:-[A-Z]*(\d+))?(?:\(([^)]*)\))?(\^?)(?:=(\S+?))?(\??)(\]?)$/;

/**
 * The pages of a line: `1-4` a range, `A1-A8` with section, `x3` held back, `x3=12` and of which frame it is a second exposure, `3^` a retake,
 * `7(9)` page 7 printed as 9, `2(-)` nothing printed, `+S1-S2` a supplement, `[5]` wanting, `[5?]` perhaps never published.
 */
export function pageTokens(text: string): PageToken[] {
  return text.split(/\s+/).flatMap((word) => {
    const match = SHAPE.exec(word);
    if (match === null) throw new RangeError(`"${word}" names no page.`);
    const [, open, plus, x, letters = '', first = '', last, printed, hat, twin, doubt] = match;
    const numbers = Array.from({ length: Number(last ?? first) - Number(first) + 1 }, (_, i) => Number(first) + i);
    return numbers.map((number) => ({
      page: `${letters}${String(number)}`,
      section: letters === '' ? null : letters,
      printed: printed ?? null,
      held: x === 'x',
      supplement: plus === '+',
      retake: hat === '^',
      duplicateOf: twin ?? null,
      wanting: open === '[' ? (doubt === '?' ? ('unknown' as const) : ('yes' as const)) : null,
    }));
  });
}

/** The frame numbers of a line: `7`, `2-5`, `3A-4B` with both halves of each exposure. */
export function frameNames(text: string): string[] {
  const [, first = '', firstHalf = '', last, lastHalf = ''] = /^(\d+)([AB]?)(?:-(\d+)([AB]?))?$/.exec(text) ?? [];
  if (first === '') throw new RangeError(`"${text}" names no frames.`);
  if (last === undefined) return [`${first}${firstHalf}`];
  const exposures = Array.from({ length: Number(last) - Number(first) + 1 }, (_, i) => String(Number(first) + i));
  if (firstHalf === '') return exposures;
  const halves = exposures.flatMap((exposure) => [`${exposure}A`, `${exposure}B`]);
  return halves.slice(firstHalf === 'A' ? 0 : 1, lastHalf === 'A' ? -1 : undefined);
}
