import { areFindingsShown } from './parts.js';

/** What a key does. */
export type Keys = ReadonlyMap<string, () => void>;

const TYPING = 'input:not([type="checkbox"], [type="radio"]), select, textarea';

/**
 * Heeds single keys, unless somebody types, a dialog is open, or they are switched off (WCAG 2.2, 2.1.4). Arrows move through the list where
 * nothing else has the focus that they would move in.
 */
export function heedKeys(keys: Keys, on: () => boolean): void {
  addEventListener('keydown', (event) => {
    const target = event.target;
    if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing || !(target instanceof Element)) return;
    if (target.matches(TYPING) || document.querySelector('dialog[open]') !== null || !on()) return;
    // Nothing is decided, chosen or written about what is not on the screen.
    if (!areFindingsShown() && event.key !== '?') return;
    const arrow = event.key === 'ArrowDown' || event.key === 'ArrowUp';
    const free = target === document.body || target.closest('#list') !== null || target.matches('.finding h3');
    if (arrow && !free) return;
    const act = keys.get(event.key.length === 1 ? event.key.toLowerCase() : event.key);
    if (act === undefined) return;
    event.preventDefault();
    act();
  });
}
