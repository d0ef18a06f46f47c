import type { Filmed } from './around.js';

/** An issue with its numbers of pages. */
export interface IssuePages {
  readonly title: string | null;
  readonly date: string | null;
  readonly edition: number | null;
  /** On the film and to be delivered. */
  pages: number;
  /** Of these, pages that came. */
  came: number;
  /** Pages that came and are held back, or unknown to the record. */
  besides: number;
  /** Known to be absent from the film. */
  absent: number;
}

/** The issues of a film in film order, with the pages that the record has and those that came. */
export function issuesOf({ result }: Filmed): readonly IssuePages[] {
  const issues = new Map<string, IssuePages>();
  const at = (title: string | null, date: string | null, edition: number | null): IssuePages => {
    const key = JSON.stringify([title, date, edition]);
    const issue = issues.get(key) ?? { title, date, edition, pages: 0, came: 0, besides: 0, absent: 0 };
    issues.set(key, issue);
    return issue;
  };
  for (const frame of result.reels.flatMap((reel) => reel.frames)) {
    if (frame.title === null && frame.date === null) continue;
    const issue = at(frame.title, frame.date, frame.edition);
    const came = frame.returnedKind === 'page';
    const ordered = frame.state !== 'return-only' && frame.kind === 'page' && frame.deliver;
    if (ordered) issue.pages++;
    if (ordered && came) issue.came++;
    if (!ordered && came) issue.besides++;
  }
  for (const absence of result.reels.flatMap((reel) => reel.absent)) {
    if (absence.page !== null && absence.published !== 'no') at(absence.title, absence.date, absence.edition ?? 1).absent++;
  }
  return [...issues.values()];
}
