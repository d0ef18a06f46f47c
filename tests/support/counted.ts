import type { Frame, Reel, Side } from '../../src/model/film.js';

/** The pages of a return as they come where it gives no frame numbers: document by document in the order of dates, each numbered on from the one before. */
export function countedOn(side: Side, { reels = false }: { readonly reels?: boolean } = {}): Side {
  const list = side.reels.map((reel): Reel => ({ ...reel, frames: counted(side, reel.frames) }));
  if (!reels) return { ...side, reels: list };
  const frames = counted(
    side,
    list.flatMap((reel) => reel.frames.filter((frame) => frame.kind === 'page')),
  );
  const [first] = list;
  return {
    ...side,
    reels: first === undefined ? [] : [{ ...first, number: '', text: '', numberInferred: true, frames, facts: {}, targetsListed: false }],
  };
}

function counted(side: Side, frames: readonly Frame[]): Frame[] {
  const pages = frames.filter((frame) => frame.kind === 'page');
  const documents = [...new Set(pages.map((frame) => frame.issue))].sort((a, b) => (name(side, a) < name(side, b) ? -1 : 1));
  const read = documents.flatMap((document) =>
    pages.filter((frame) => frame.issue === document).sort((a, b) => (a.order ?? 0) - (b.order ?? 0)),
  );
  const others = frames.filter((frame) => frame.kind !== 'page');
  return [...others, ...read].map((frame, at) => ({
    ...frame,
    frame: { text: String(at + 1), exposure: at + 1, half: '', inferred: true },
  }));
}

function name(side: Side, issue: number | null): string {
  const { title, date, edition } = side.issues[issue ?? -1] ?? { title: '', date: null, edition: 1 };
  return `${title ?? ''} ${date?.text ?? ''} ${String(edition ?? 1)} ${String(issue).padStart(6, '0')}`;
}

/** The side with each of its frames put through a change. */
export function withFrames(side: Side, change: (frame: Frame) => Frame): Side {
  return { ...side, reels: side.reels.map((reel) => ({ ...reel, frames: reel.frames.map(change) })) };
}
