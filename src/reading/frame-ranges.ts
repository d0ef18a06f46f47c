/** The first and last frame of an issue as one cell writes them. */
export interface FrameRange {
  readonly first: string;
  readonly last: string;
}

const WORD = String.raw`(?:(?:frames?|fr|exposures?|exp|images?|img|bild(?:er)?|aufnahmen?|aufn|vues?|nos?|nr|n°)\.?\s*)?`;
const RANGE = new RegExp(
  String.raw`^${WORD}(?:from |von |vue |de )?(\d{1,6})\s?([A-Za-z]?)\s*(?:-|\u2013|\u2014|\.\.\.?|\u2026|to|through|thru|bis|au|à)\s*${WORD}(\d{1,6})\s?([A-Za-z]?)\.?$`,
  'i',
);

/** Reads `3-6`, `fr. 3 to 6`, `3 bis 6`; also `113-16`, whose second number leaves out what it has in common. Null for any other text. */
export function frameRange(text: string): FrameRange | null {
  const [, first, firstHalf = '', last, lastHalf = ''] = RANGE.exec(text.trim()) ?? [];
  if (first === undefined || last === undefined) return null;
  const whole = last.length < first.length ? `${first.slice(0, first.length - last.length)}${last}` : last;
  return Number(whole) < Number(first) ? null : { first: `${first}${firstHalf}`, last: `${whole}${lastHalf}` };
}
