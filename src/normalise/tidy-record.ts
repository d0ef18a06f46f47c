import type { CollationRecord } from '../model/collation-record.js';

/** The record without white space at the ends of its texts and without empty texts and lists, as the cells of a sheet would hold it. */
export function tidyRecord(record: CollationRecord): CollationRecord {
  const { format, titles, reels } = record;
  return {
    format,
    titles: titles.map((title) => tidy({ ...title, ...tidyList('patterns', title.patterns) })),
    reels: reels.map((reel) =>
      tidy({ ...reel, frames: reel.frames.map((frame) => tidy(frame)), ...tidyList('absent', reel.absent) }, 'frames'),
    ),
  };
}

function tidyList(key: 'patterns' | 'absent', items: readonly object[] | undefined): object {
  return items === undefined ? {} : { [key]: items.map((item) => tidy(item, 'days')) };
}

/** `kept` names the list that stays where it is empty, because the format asks for it. */
function tidy<Entry extends object>(entry: Entry, kept = ''): Entry {
  if (isTidy(entry, kept)) return entry;
  const fields = Object.entries(entry).flatMap(([key, value]: [string, unknown]): [string, unknown][] => {
    if (typeof value === 'string') return value.trim() === '' ? [] : [[key, value.trim()]];
    if (!Array.isArray(value)) return [[key, value]];
    const items = value.map((item: unknown) => (typeof item === 'string' ? item.trim() : item)).filter((item) => item !== '');
    return items.length === 0 && key !== kept ? [] : [[key, items]];
  });
  return Object.fromEntries(fields) as Entry;
}

/** Nearly every entry is: most records were written by a program. */
function isTidy(entry: object, kept: string): boolean {
  for (const key of Object.keys(entry)) {
    const value: unknown = (entry as Record<string, unknown>)[key];
    if (typeof value === 'string') {
      if (!isTidyText(value)) return false;
    } else if (Array.isArray(value) && !isTidyList(value, key === kept)) return false;
  }
  return true;
}

const isTidyText = (text: string): boolean => text !== '' && text.trim() === text;
const isTidyList = (items: readonly unknown[], mayBeEmpty: boolean): boolean =>
  (mayBeEmpty || items.length > 0) && items.every((item) => typeof item !== 'string' || isTidyText(item));
