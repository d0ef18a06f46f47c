/** Characters that a value from a vendor's document may have in a sentence, and how many are shown of a longer one. */
const LONGEST = 200;
const SHOWN = 80;

/** A value as it can stand in a sentence: one that is longer than any honest one is cut, and its length said. Two long values that differ in length stay two. */
export function shortened(text: string, longest = LONGEST): string {
  return text.length <= longest ? text : `${text.slice(0, SHOWN)}... (${String(text.length)} characters)`;
}
