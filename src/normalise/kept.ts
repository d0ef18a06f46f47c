/** So many texts are kept in mind where nothing else is said. */
const MOST = 2000;

/** The same function, asked once for texts that come again and again: each row of a sheet is asked several times, and all pages of an issue have the same day beside them. */
export function keptInMind<V>(make: (text: string) => V, most = MOST): (text: string) => V {
  const kept = new Map<string, V>();
  return (text) => {
    const known = kept.get(text);
    if (known !== undefined) return known;
    const found = make(text);
    if (kept.size >= most) kept.clear();
    kept.set(text, found);
    return found;
  };
}
