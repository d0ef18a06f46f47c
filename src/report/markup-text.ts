const ENTITIES: ReadonlyMap<string, string> = new Map([
  ['&', '&amp;'],
  ['<', '&lt;'],
  ['>', '&gt;'],
  ['"', '&quot;'],
  ["'", '&#39;'],
]);

/** A text with the characters of the markup escaped, for an element or a quoted attribute (HTML, 13.1.2). */
export function withEntities(text: string): string {
  return text.replace(/[&<>"']/g, (character) => ENTITIES.get(character) ?? character);
}

/**
 * The steps of a path inside the batch, encoded piece by piece so that a colon or a question mark in a name stays part of the name; null for a
 * path that leads out of the batch, is none, or holds half a surrogate pair, which has no encoding.
 */
export function encodedPath(path: string): string | null {
  const steps = path.split('/');
  if (steps.some((step) => step === '' || step === '.' || step === '..' || step.includes('\\'))) return null;
  try {
    return steps.map(encodeURIComponent).join('/');
  } catch {
    return null;
  }
}
