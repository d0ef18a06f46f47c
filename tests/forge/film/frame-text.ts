/** A frame number with its exposure moved by `by`, the half kept: `12A` and 1 give `13A`. */
export function moved(frame: string, by: number): string {
  const match = /^(\d+)([A-Z]?)$/.exec(frame);
  return `${String(Number(match?.[1] ?? '0') + by)}${match?.[2] ?? ''}`;
}
