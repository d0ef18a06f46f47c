import { readFileSync } from 'node:fs';

/** The version in package.json, which stands two folders above this file in src and in dist alike. */
export function programVersion(): string {
  const found: unknown = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
  return typeof found === 'object' && found !== null && 'version' in found ? String(found.version) : 'unknown';
}

/** The program as its results name it. */
export const tool = (): { readonly name: string; readonly version: string } => ({ name: 'reeltally', version: programVersion() });
