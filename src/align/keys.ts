import type { Frame, Issue, Side } from '../model/film.js';

/** What a page says of itself, by its label and by its place in the issue. */
interface Keys {
  readonly content: string | null;
  readonly order: string | null;
}

/** The keys of each frame: the film is followed in many steps, and each asks for them. A frame belongs to other issues where it is read on another side. */
let known = new WeakMap<Side, Map<Frame, Keys>>();

/** To be called where no film is followed any longer: the keys of a large batch take much room. */
export function forgetKeys(): void {
  known = new WeakMap();
}

function keysOf(frame: Frame, side: Side): Keys {
  let own = known.get(side);
  if (own === undefined) {
    own = new Map<Frame, Keys>();
    known.set(side, own);
  }
  let keys = own.get(frame);
  if (keys === undefined) own.set(frame, (keys = keysMade(frame, side)));
  return keys;
}

function keysMade(frame: Frame, side: Side): Keys {
  const issue = frame.issue === null ? undefined : side.issues[frame.issue];
  const when = issue === undefined ? null : issueName(issue);
  if (issue === undefined || when === null || frame.kind !== 'page') return NO_KEYS;
  const label = frame.pagePrintedKey === null ? frame.pageKey : frame.pagePrintedKey === '-' ? null : frame.pagePrintedKey;
  const page = label ?? `#${frame.order ?? ''}`;
  const own = `${issue.title ?? ''}|${when}|${String(issue.edition ?? 1)}`;
  return {
    content: `${own}|${frame.section ?? ''}|${page}`,
    order: frame.order === null ? null : `${own}|#|${String(frame.order)}`,
  };
}

const NO_KEYS: Keys = { content: null, order: null };

/** The day of an issue, or the words of a date that is no day. An uncertain day names no issue; its number may. */
function issueName({ date, issueNumber }: Issue): string | null {
  if (date === null) return null;
  if (!date.uncertain) return date.day ?? date.text;
  return issueNumber === null ? null : `number ${issueNumber}`;
}

/** What a page says of itself, as one text: title, date, edition, section and label, or the order where no label is given. Null for what is no page of a dated issue. */
export function contentKey(frame: Frame, side: Side): string | null {
  return keysOf(frame, side).content;
}

/** The same with the order alone in place of the label: finds a page whose label is unprinted on one side. */
export function orderKey(frame: Frame, side: Side): string | null {
  return keysOf(frame, side).order;
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
