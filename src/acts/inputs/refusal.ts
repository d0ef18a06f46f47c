/** So many mistakes are told at once: whoever mends these knows what to look for in the rest. */
const TOLD = 20;

/** A refusal: what cannot be done, and under it the mistakes, a line each, so many that they can be read. `more` names what is left. */
export function refusal(says: string, mistakes: readonly string[], more = 'more'): string {
  const rest = mistakes.length - TOLD;
  return [`${says}:`, ...mistakes.slice(0, TOLD).map((one) => `  ${one}`), ...(rest > 0 ? [`  and ${String(rest)} ${more}.`] : [])].join(
    '\n',
  );
}
