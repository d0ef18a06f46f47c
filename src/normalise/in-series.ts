/** `a, b and c`, or `a, b or c`. */
export function inSeries(words: readonly string[], last: 'and' | 'or' = 'and'): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1) ?? ''}`;
}

/** The same with so many words at most, `a, b, c and 12 more`. */
export function firstInSeries(words: readonly string[], most: number): string {
  const rest = words.length - most;
  return rest > 0 ? `${words.slice(0, most).join(', ')} and ${String(rest)} more` : inSeries(words);
}
