import type { DecisionRecord } from '../model/decision.js';

/** Every key of a decision in the order in which it is written; one list serves all its objects. */
const KEYS: readonly string[] = [
  'format library vendor batch delivery by on note decision reasons verdict review',
  'received days dayKind holidays due inTime',
  'rulings id code severity cause says ruling unruled',
  'samples plan seed listSha256 unit lotSize drawn nonconforming accepted',
  'invoice number currency rounding billed difference differences kind lines class quantity effect findings',
  'inputs role name sha256',
].flatMap((keys) => keys.split(' '));

/** RFC 8259 section 7 allows any character to be escaped; these would steer a terminal or hide text. */
const UNSEEN = /[\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]|\udb40[\udc00-\udc7f]/g;

/** A decision as JSON: keys in one order, two spaces, a line break at the end; the same decision gives the same bytes however its objects were put together. */
export function decisionText(decision: DecisionRecord): string {
  return `${JSON.stringify(ordered(decision), null, 2).replace(UNSEEN, escaped)}\n`;
}

function ordered(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(ordered);
  if (typeof value !== 'object' || value === null) return value;
  const entries: ReadonlyMap<string, unknown> = new Map(Object.entries(value));
  const known = KEYS.filter((key) => entries.has(key));
  // None today; a field that a later format adds must not be lost.
  const others = [...entries.keys()].filter((key) => !KEYS.includes(key)).sort();
  return Object.fromEntries([...known, ...others].map((key) => [key, ordered(entries.get(key))]));
}

function escaped(text: string): string {
  return Array.from({ length: text.length }, (_, at) => `\\u${text.charCodeAt(at).toString(16).padStart(4, '0')}`).join('');
}
