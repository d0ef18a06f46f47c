import type { DecisionRecord } from '../../model/decision.js';
import { jsonText, ordered } from '../json.js';

/** Every key of a decision in the order in which it is written; one list serves all its objects. */
const KEYS: readonly string[] = [
  'format library vendor batch deliveryNumber by second on note decision delivery release currency amount due left parts named reason advice reasons against verdict review',
  'received days dayKind holidays inTime',
  'rulings id code severity cause says ruling money unruled',
  'samples plan seed listSha256 unit lotSize drawn nonconforming accepted lots agreed judgedAgain',
  'notLookedAt notChecked what why required',
  'invoices number billed difference released differences kind lines class quantity effect findings invoice line text',
  'inputs role name sha256',
].flatMap((keys) => keys.split(' '));

/** A decision as JSON: keys in one order, two spaces, a line break at the end; the same decision gives the same bytes however its objects were put together. */
export function decisionText(decision: DecisionRecord): string {
  return jsonText(ordered(decision, keyOrder));
}

function keyOrder(keys: readonly string[]): readonly string[] {
  // None today; a field that a later format adds must not be lost.
  const others = keys.filter((key) => !KEYS.includes(key)).toSorted();
  return [...KEYS.filter((key) => keys.includes(key)), ...others];
}
