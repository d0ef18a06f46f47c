/** The name of a fact in a sentence. */
export function factName(fact: string | null | undefined): string {
  if (fact === 'frame' || fact === 'exposure') return 'frame number';
  if (fact === 'reel') return 'reel number';
  if (fact === 'order') return 'page order';
  if (fact === 'page') return 'page number';
  // `editionLabel` and the names of reel facts become words.
  return (fact ?? 'fact').replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}
