import type { ExpectedCounts } from '../../model/expected-delivery.js';
import type { Frame, Side } from '../../model/film.js';

/** The record in numbers: frames by reel, issues and pages by title. An issue on two reels is counted where it begins. */
export function expectedCounts(record: Side): ExpectedCounts {
  const seen = new Set<number>();
  const reels = record.reels.map(({ text, frames }) => {
    const delivered = frames.filter(({ deliver }) => deliver);
    const titles = new Map<string, { issues: number; pages: number }>();
    for (const frame of delivered) {
      if (frame.issue === null) continue;
      const title = titleOf(record, frame);
      const entry = titles.get(title) ?? { issues: 0, pages: 0 };
      titles.set(title, { issues: entry.issues + (seen.has(frame.issue) ? 0 : 1), pages: entry.pages + (frame.kind === 'page' ? 1 : 0) });
      seen.add(frame.issue);
    }
    return {
      number: text,
      frames: frames.length,
      deliver: delivered.length,
      heldBack: frames.length - delivered.length,
      titles: [...titles].map(([title, counts]) => ({ title, ...counts })),
    };
  });
  const whole = record.absences.filter(({ page, order }) => page === null && order === null).length;
  return { reels, issues: seen.size, absences: { issues: whole, pages: record.absences.length - whole } };
}

function titleOf({ issues, titles }: Side, { issue }: Frame): string {
  const id = issues[issue ?? -1]?.title ?? '';
  const name = titles.find((title) => title.id === id)?.name ?? id;
  return name === id ? id : `${name} (${id})`;
}
