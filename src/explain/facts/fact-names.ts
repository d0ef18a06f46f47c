/** The name of a fact in a sentence. */
export function factName(fact: string | null | undefined): string {
  if (fact === 'frame' || fact === 'exposure') return 'frame number';
  if (fact === 'reel') return 'reel number';
  if (fact === 'order') return 'page order';
  if (fact === 'page') return 'page number';
  if (fact === 'datePrinted') return 'printed date';
  if (fact === 'section') return 'section label';
  if (fact === 'present') return 'statement of being there';
  // `editionLabel` and the names of reel facts become words.
  return (fact ?? 'fact').replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}
