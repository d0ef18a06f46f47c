import type { Frame, Issue, Side } from '../model/film.js';

/** What a place in a sequence holds. */
export const KIND = {
  page: 0,
  heldBackPage: 1,
  blank: 2,
  target: 3,
  void: 4,
  other: 5,
  undescribed: 6,
  empty: 7,
  unmatched: 8,
  emptyHalf: 9,
} as const;

/** Facts of a sequence as whole numbers, one entry per place, so that comparing two places is a handful of integer tests. 0 = no statement. */
export interface Features {
  readonly length: number;
  readonly kind: Int32Array;
  readonly title: Int32Array;
  readonly date: Int32Array;
  readonly datePrinted: Int32Array;
  readonly edition: Int32Array;
  readonly label: Int32Array;
  /** Record: the label printed on the paper where it differs. */
  readonly labelPrinted: Int32Array;
  readonly section: Int32Array;
  readonly order: Int32Array;
  /** The label's value where it is a number; 0 elsewhere. */
  readonly labelNumber: Int32Array;
  /** Which issue a place belongs to, numbered as the issues first come in this sequence; 0 for none. */
  readonly issue: Int32Array;
  /** 1 for the second half of a split exposure. */
  readonly second: Int32Array;
  /** 1 for either half. */
  readonly half: Int32Array;
  /** Record: 1 where the paper prints no label. */
  readonly unprinted: Int32Array;
}

/** Gives the same number to the same text on both sides. */
export type Dictionary = (text: string | null) => number;

export function dictionary(): Dictionary {
  const codes = new Map<string, number>();
  return (text) => {
    if (text === null) return 0;
    let code = codes.get(text);
    if (code === undefined) {
      code = codes.size + 1;
      codes.set(text, code);
    }
    return code;
  };
}

export function emptyFeatures(length: number): Features {
  const column = (): Int32Array => new Int32Array(length);
  return {
    length,
    kind: column(),
    title: column(),
    date: column(),
    datePrinted: column(),
    edition: column(),
    label: column(),
    labelPrinted: column(),
    section: column(),
    order: column(),
    labelNumber: column(),
    issue: column(),
    second: column(),
    half: column(),
    unprinted: column(),
  };
}

/** True for `12B`, `12C`: a part of an exposure that is not its first. */
function isSecondHalf(frame: Frame): boolean {
  return frame.frame !== null && frame.frame.half !== '' && frame.frame.half !== 'A';
}

export function frameKind(frame: Frame): number {
  if (frame.kind === 'unmatched') return KIND.unmatched;
  if (frame.kind === 'page') return frame.deliver ? KIND.page : KIND.heldBackPage;
  if (frame.deliver && frame.kind !== 'target') return KIND.page;
  return KIND[frame.kind];
}

/** Writes one frame's facts into column position `at`. */
export function fillFeatures(features: Features, at: number, frame: Frame, side: Side, code: Dictionary): void {
  const issue: Issue | undefined = frame.issue === null ? undefined : side.issues[frame.issue];
  features.kind[at] = frameKind(frame);
  features.section[at] = code(frame.section);
  features.order[at] = frame.order ?? 0;
  features.second[at] = isSecondHalf(frame) ? 1 : 0;
  features.half[at] = frame.frame === null || frame.frame.half === '' ? 0 : 1;
  features.label[at] = code(frame.pageKey);
  features.labelNumber[at] = frame.pageKey !== null && /^\d{1,4}$/.test(frame.pageKey) ? Number(frame.pageKey) : 0;
  features.unprinted[at] = frame.pagePrinted === '-' ? 1 : 0;
  // '-' means that nothing is printed: a page without a label on the other side agrees with it
  features.labelPrinted[at] = code(frame.pagePrintedKey === '-' ? null : frame.pagePrintedKey);
  if (issue === undefined) return;
  features.issue[at] = (frame.issue ?? -1) + 1;
  features.title[at] = code(issue.title);
  features.date[at] = issue.date?.uncertain === true ? 0 : code(issue.date?.day ?? issue.date?.text ?? null);
  features.datePrinted[at] = code(issue.datePrinted?.day ?? issue.datePrinted?.text ?? null);
  features.edition[at] = issue.edition ?? 0;
}

/** Numbers the issues of a sequence as they first come in it: a table of them is then as large as the reel and not as the batch. */
export function numberIssues({ issue }: Features): void {
  const numbers = new Map<number, number>();
  for (let at = 0; at < issue.length; at++) {
    const one = issue[at] ?? 0;
    if (one === 0) continue;
    const number = numbers.get(one) ?? numbers.size + 1;
    numbers.set(one, number);
    issue[at] = number;
  }
}
