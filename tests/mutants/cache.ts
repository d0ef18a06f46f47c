/** What an earlier run has found, kept beside the installed packages; a key holds the texts that it was found of. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';

export interface Cache<Value> {
  readonly get: (key: string) => Value | undefined;
  readonly set: (key: string, value: Value) => void;
}

export function cacheIn<Value>(path: string, isFresh: boolean): Cache<Value> {
  const kept = new Map<string, Value>(isFresh ? [] : (entriesIn(path) as readonly (readonly [string, Value])[]));
  return {
    get: (key) => kept.get(key),
    set: (key, value) => {
      if (kept.get(key) === value) return;
      kept.set(key, value);
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, JSON.stringify([...kept]));
    },
  };
}

function entriesIn(path: string): unknown {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return [];
  }
}
