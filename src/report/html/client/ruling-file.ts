import type { Ruling } from '../../../model/rulings.js';

const DECISIONS: readonly Ruling['decision'][] = ['vendor-corrects', 'collation-wrong', 'accept-as-is'];

/** The decision that a text names; null for any other text. */
export function knownDecision(text: unknown): Ruling['decision'] | null {
  return DECISIONS.find((decision) => decision === text) ?? null;
}

/** True for a day of the calendar written `YYYY-MM-DD`. */
export function isDay(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const time = Date.parse(`${text}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(text);
}

/** What a file of rulings holds for this page, and everything that is wrong with it. */
export interface ReadRulings {
  readonly rulings: readonly Ruling[];
  readonly errors: readonly string[];
  /** How many of its entries do not count. */
  readonly refused: number;
}

/** Reads a file that this page, or anybody, wrote as `rulings.json`. What is wrong is told all at once; the rest is still good. */
export function readRulings(text: string, known: ReadonlySet<string>): ReadRulings {
  const list = entriesIn(text);
  if (typeof list === 'string') return { rulings: [], errors: [list], refused: 0 };
  const rulings = new Map<string, { readonly ruling: Ruling; readonly at: number }>();
  const twice = new Set<string>();
  const readable: string[] = [];
  const errors: string[] = [];
  list.forEach((entry, index) => {
    const at = index + 1;
    const { ruling, faults } = readOne(entry, known);
    if (ruling === null) {
      errors.push(`Entry ${String(at)}${nameOf(entry)}: ${faults.join('; ')}.`);
      return;
    }
    readable.push(ruling.finding);
    const other = rulings.get(ruling.finding);
    if (other !== undefined && other.ruling.decision !== ruling.decision) {
      twice.add(ruling.finding);
      errors.push(`Entries ${String(other.at)} and ${String(at)} decide differently about ${ruling.finding}: neither counts.`);
    } else rulings.set(ruling.finding, { ruling, at });
  });
  const good = (finding: string): boolean => !twice.has(finding);
  return {
    rulings: [...rulings.values()].flatMap(({ ruling }) => (good(ruling.finding) ? [ruling] : [])),
    errors,
    refused: list.length - readable.filter(good).length,
  };
}

/** The entries of the file, or the sentence that says why it is no such file. */
function entriesIn(text: string): readonly unknown[] | string {
  let value: unknown;
  try {
    value = JSON.parse(text.replace(/^\ufeff/, ''));
  } catch {
    return 'This is not JSON: choose a rulings.json that was saved from such a page.';
  }
  const { format, rulings } = (typeof value === 'object' && value !== null ? value : {}) as { format?: unknown; rulings?: unknown };
  if (format !== 'reeltally/rulings/1') {
    return `This is not a file of rulings: its format is ${typeof format === 'string' ? `"${format.slice(0, 60)}"` : 'not given'}, not "reeltally/rulings/1".`;
  }
  return Array.isArray(rulings) ? rulings : 'The file has no list of rulings.';
}

const trimmed = (value: unknown): string => (typeof value === 'string' ? value.trim() : '');

function nameOf(entry: unknown): string {
  const { finding } = (entry ?? {}) as { finding?: unknown };
  return trimmed(finding) === '' ? '' : ` (${trimmed(finding).slice(0, 200)})`;
}

function readOne(entry: unknown, known: ReadonlySet<string>): { readonly ruling: Ruling | null; readonly faults: readonly string[] } {
  const { finding, decision, note, by, on } = (typeof entry === 'object' && entry !== null ? entry : {}) as Record<string, unknown>;
  const said = knownDecision(decision);
  const id = typeof finding === 'string' ? finding : '';
  const faults = [
    ...(id === '' ? ['it names no finding'] : known.has(id) ? [] : ['this report has no such finding']),
    ...(said === null
      ? [`the decision ${trimmed(decision) === '' ? 'is missing' : `"${trimmed(decision).slice(0, 60)}" is none of the three`}`]
      : []),
    ...(trimmed(by) === '' ? ['the name is missing'] : []),
    ...(trimmed(on) === ''
      ? ['the day is missing']
      : isDay(trimmed(on))
        ? []
        : [`"${trimmed(on).slice(0, 40)}" is not a day written YYYY-MM-DD`]),
    ...(note === undefined || typeof note === 'string' ? [] : ['the note is not text']),
  ];
  if (faults.length > 0 || said === null) return { ruling: null, faults };
  const fitting = (text: unknown, most: number): string => trimmed(text).slice(0, most);
  return { ruling: { finding: id, decision: said, note: fitting(note, 10000), by: fitting(by, 1000), on: trimmed(on) }, faults };
}
