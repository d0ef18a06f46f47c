import type { Weekday } from '../../../src/model/collation-record.js';

/** Invented papers of the invented coast of Verrin: nothing here names a real title or place. */
export const PAPERS: readonly { readonly name: string; readonly language: string; readonly direction: 'ltr' | 'rtl' }[] = [
  { name: 'The Tolmouth Lantern', language: 'eng', direction: 'ltr' },
  { name: 'The Verrin Coast Packet', language: 'eng', direction: 'ltr' },
  { name: 'The Quillhaven Courant', language: 'eng', direction: 'ltr' },
  { name: 'The Ombersea Weekly Tide', language: 'eng', direction: 'ltr' },
  { name: 'Der Brennacher Bote', language: 'ger', direction: 'ltr' },
  { name: 'The Saltreach Plowman', language: 'eng', direction: 'ltr' },
  { name: 'The Lower Dunning Argosy', language: 'eng', direction: 'ltr' },
  { name: 'Kol Varin', language: 'heb', direction: 'rtl' },
];

/** The library of the demonstration and its code, both invented. */
export const LIBRARY = { name: 'Verrin Coast Record Library, Tolmouth', code: 'vzx' };

const WORDS: Readonly<Record<string, readonly string[]>> = {
  eng: ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'],
  ger: ['Montag', 'Dienstag', 'Mittwoch', 'Donnerstag', 'Freitag', 'Samstag', 'Sonntag'],
};

const ORDER: readonly Weekday[] = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];

/** The weekday as a paper in that language prints it, or null where the invented papers print none. */
export function weekdayWord(day: Weekday, language: string): string | null {
  return WORDS[language]?.[ORDER.indexOf(day)] ?? null;
}
