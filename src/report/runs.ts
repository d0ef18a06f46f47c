/** A frame number without a letter as a number; null for `12A`, for no number, and for what no film has. */
export function plainNumber(text: string | null): number | null {
  return text !== null && /^\d{1,9}$/.test(text) ? Number(text) : null;
}

/** Numbers as runs: `21 to 24`, `8, 12 to 14`; `none` where there are none. Only plain numbers join. */
export function inRuns(numbers: readonly (string | null)[]): string {
  const runs: { from: string; to: string }[] = [];
  for (const number of numbers) {
    if (number === null) continue;
    const last = runs.at(-1);
    const [before, now] = [plainNumber(last?.to ?? null), plainNumber(number)];
    if (last !== undefined && before !== null && now === before + 1) last.to = number;
    else runs.push({ from: number, to: number });
  }
  if (runs.length === 0) return 'none';
  return runs.map(({ from, to }) => (from === to ? from : `${from} to ${to}`)).join(', ');
}
