import type { Frame, FrameNumber, Issue } from '../model/film.js';
import type { Profile } from '../model/profile.js';

/**
 * Numbers the frames of a reel where the profile says that nobody wrote their numbers: by date and edition of the issues, then by the order of
 * the pages. Where the carrier is print every number is a place in the volume and no more.
 */
export function countOn(draft: { readonly frames: Frame[] }, issues: readonly Issue[], profile: Profile): void {
  const counted = (profile.facts.page.frame?.sources ?? []).some((source) => typeof source !== 'string' && source.in === 'count');
  if (profile.carrier === 'print')
    draft.frames.forEach((frame, at) => {
      if (frame.frame !== null) draft.frames[at] = { ...frame, frame: { ...frame.frame, inferred: true } };
    });
  if (!counted) return;
  // A reel on which some pages have a number of their own is numbered by those.
  if (draft.frames.some((frame) => frame.frame !== null)) return;
  const rank = new Map(inOrder(issues).map((issue, at) => [issue, at]));
  const ordered = draft.frames
    .map((frame, at) => ({ frame, at }))
    .sort((a, b) => (rank.get(a.frame.issue ?? -1) ?? 0) - (rank.get(b.frame.issue ?? -1) ?? 0) || a.at - b.at);
  draft.frames.splice(0, draft.frames.length, ...ordered.map(({ frame }, at) => ({ ...frame, frame: inferredNumber(at + 1) })));
}

/** The places of the issues in the side, by day and edition; those without a certain day last. */
function inOrder(issues: readonly Issue[]): readonly number[] {
  const keys = issues.map((issue, at) => ({ day: issue.date?.day ?? '9999-99-99', edition: issue.edition ?? 1, at }));
  return keys.sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : a.edition - b.edition || a.at - b.at)).map(({ at }) => at);
}

function inferredNumber(place: number): FrameNumber {
  return { text: String(place), exposure: place, half: '', inferred: true };
}

/** Whether the number of a reel is none that the vendor wrote: there is none, or the profile itself gives it. */
export function isInferredReel({ number, text }: { readonly number: string; readonly text: string }, profile: Profile): boolean {
  const { reel } = profile.facts.page;
  const constant = [...(reel?.sources ?? []), ...(profile.facts.reel.reel?.sources ?? [])].some(
    (source) => typeof source !== 'string' && source.in === 'constant' && source.text === text,
  );
  return constant || (number === '' && (reel === undefined || reel.sources.length === 0));
}
