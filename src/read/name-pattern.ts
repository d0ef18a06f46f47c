/** What each placeholder of a name pattern stands for; the rest are free runs of characters. */
const SHAPES: ReadonlyMap<string, string> = new Map([
  ['date', '\\d{4}-\\d{2}-\\d{2}'],
  ['day', '\\d{8}'],
  ['edition', '\\d{2}'],
  ['frame', '\\d{1,9}[A-Za-z]?'],
  ['number', '\\d{1,12}'],
  ['lccn', '[A-Za-z]{0,3}\\d{8,10}'],
]);
const FREE = new Set(['title', 'reel', 'batch', 'label', 'any']);

/** Longest name or label that is looked at. */
const LONGEST = 300;
/** Longest pattern. */
const LONGEST_PATTERN = 200;

/** Why a pattern cannot be used, in one sentence; null when it can. Free runs are bounded so that no name can make matching slow. */
export function patternFault(pattern: string): string | null {
  if (pattern.length === 0 || pattern.length > LONGEST_PATTERN)
    return `A name pattern must have 1 to ${String(LONGEST_PATTERN)} characters.`;
  const names = placeholders(pattern);
  const unknown = names.find((name) => !SHAPES.has(name) && !FREE.has(name));
  if (unknown !== undefined) return `The name pattern "${pattern}" has the unknown placeholder {${unknown}}.`;
  if (/[{}]/.test(pattern.replace(/\{[a-z]{1,20}\}/g, '')))
    return `The name pattern "${pattern}" has a brace that does not belong to a placeholder.`;
  const free = names.filter((name) => FREE.has(name)).length;
  const last = names.at(-1);
  const endsFree = last !== undefined && FREE.has(last) && pattern.endsWith(`{${last}}`);
  return free - (endsFree ? 1 : 0) > 2 ? `The name pattern "${pattern}" has more than two free placeholders before its end.` : null;
}

/** The parts of a name by placeholder, from the first pattern that fits it whole; null when none does. */
export function matchName(name: string, patterns: readonly string[]): ReadonlyMap<string, string> | null {
  if (name.length > LONGEST) return null;
  for (const pattern of patterns) {
    const { expression, names } = compiled(pattern);
    const match = expression.exec(name);
    if (match !== null) return new Map(names.map((part, at) => [part, match[at + 1] ?? '']));
  }
  return null;
}

interface Compiled {
  readonly expression: RegExp;
  readonly names: readonly string[];
}

const cache = new Map<string, Compiled>();

function compiled(pattern: string): Compiled {
  const known = cache.get(pattern);
  if (known !== undefined) return known;
  const names = placeholders(pattern);
  const source = pattern
    .split(/(\{[a-z]{1,20}\})/)
    .map((part) => {
      if (!part.startsWith('{')) return part.replace(/[.*+?^${}()|[\]\\/-]/g, '\\$&');
      return `(${SHAPES.get(part.slice(1, -1)) ?? '[^/]+?'})`;
    })
    .join('');
  const made = { expression: new RegExp(`^${source}$`, 'i'), names };
  cache.set(pattern, made);
  return made;
}

function placeholders(pattern: string): readonly string[] {
  return [...pattern.matchAll(/\{([a-z]{1,20})\}/g)].map((match) => match[1] ?? '');
}
