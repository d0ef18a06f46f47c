import type { Ruling } from '../../../model/rulings.js';

/** Decisions as they are kept between two visits. */
export interface Kept {
  readonly open: readonly string[];
  readonly rulings: readonly Ruling[];
}

/** Keeps decisions in this browser; does nothing where that is refused, as it may be for a file from the disk. */
export function keep(key: string, value: Kept): void {
  try {
    localStorage.setItem(key, JSON.stringify(value));
  } catch {
    // They are still in memory, and leaving the page asks first.
  }
}

/** Removes what was kept. */
export function forgetKept(key: string): void {
  try {
    localStorage.removeItem(key);
  } catch {
    // Nothing was kept.
  }
}

/** What was kept under the key; null where there is nothing, or something else. */
export function kept(key: string): Kept | null {
  try {
    const value = JSON.parse(localStorage.getItem(key) ?? 'null') as Partial<Kept> | null;
    return Array.isArray(value?.open) && Array.isArray(value.rulings) ? { open: value.open, rulings: value.rulings } : null;
  } catch {
    return null;
  }
}
