import type { Frame, Issue, Side } from '../model/film.js';

/** What a page says of itself, as one text: title, date, edition, section and label, or the order where no label is given. Null for what is no page of a dated issue. */
export function contentKey(frame: Frame, side: Side): string | null {
  const issue = frame.issue === null ? undefined : side.issues[frame.issue];
  const when = issue === undefined ? null : issueName(issue);
  if (issue === undefined || when === null || frame.kind !== 'page') return null;
  const label = frame.pagePrintedKey === null ? frame.pageKey : frame.pagePrintedKey === '-' ? null : frame.pagePrintedKey;
  const page = label ?? `#${frame.order ?? ''}`;
  return [issue.title ?? '', when, issue.edition ?? 1, frame.section ?? '', page].join('|');
}

/** The day of an issue, or the words of a date that is no day. An uncertain day names no issue; its number may. */
function issueName({ date, issueNumber }: Issue): string | null {
  if (date === null) return null;
  if (!date.uncertain) return date.day ?? date.text;
  return issueNumber === null ? null : `number ${issueNumber}`;
}

/** The same with the order alone in place of the label: finds a page whose label is unprinted on one side. */
export function orderKey(frame: Frame, side: Side): string | null {
  const issue = frame.issue === null ? undefined : side.issues[frame.issue];
  const when = issue === undefined ? null : issueName(issue);
  if (issue === undefined || when === null || frame.kind !== 'page' || frame.order === null) return null;
  return [issue.title ?? '', when, issue.edition ?? 1, '#', frame.order].join('|');
}

/** Keys of the frames that are to be delivered, with the index of the only one that has it; a key that stands twice is left out. */
export function uniqueKeys(frames: readonly Frame[], side: Side, key: typeof contentKey): Map<string, number> {
  const found = new Map<string, number>();
  const twice = new Set<string>();
  frames.forEach((frame, index) => {
    if (!frame.deliver) return;
    const text = key(frame, side);
    if (text === null) return;
    if (found.has(text)) twice.add(text);
    found.set(text, index);
  });
  for (const text of twice) found.delete(text);
  return found;
}
