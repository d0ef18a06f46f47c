import type { FrameKind } from '../../../src/model/collation-record.js';
import type { FilmIssue, FilmShot, WantingPage } from '../film/film.js';
import type { PageToken } from './page-tokens.js';

/** A frame as its line names it, before places and duplicates are worked out; `frame` is null for a wanting page. */
export interface LaidShot {
  readonly frame: string | null;
  readonly kind: FrameKind;
  readonly issue: number | null;
  readonly token: PageToken | null;
  readonly condition: readonly string[];
  readonly note: string | null;
  readonly sourceReel: string | null;
}

interface Numbered extends LaidShot {
  readonly picture: number;
  readonly reel: string;
}

/** The frames with picture numbers, places and the frames they repeat, reel by reel, and the issues with their wanting pages. */
export function settledShots(
  issues: readonly FilmIssue[],
  reels: readonly { readonly number: string; readonly laid: readonly LaidShot[] }[],
): { readonly issues: FilmIssue[]; readonly shots: FilmShot[][]; readonly wanting: number[][] } {
  let picture = 0;
  const numbered: Numbered[][] = reels.map(({ number, laid }) => laid.map((shot) => ({ ...shot, reel: number, picture: (picture += 1) })));
  const all = numbered.flat();
  const places = issues.map((_, index) => placesOf(all.filter((shot) => shot.issue === index)));
  const wantingOf = (index: number): WantingPage[] =>
    all.flatMap(({ issue, token }) =>
      issue !== index || token === null || token.wanting === null
        ? []
        : [{ page: token.page, section: token.section, order: places[index]?.get(token.page) ?? 0, published: token.wanting }],
    );
  return {
    issues: issues.map((issue, index) => ({ ...issue, wanting: wantingOf(index), pages: places[index]?.size ?? 0 })),
    shots: numbered.map((reel) =>
      reel.filter((shot) => shot.frame !== null).map((shot) => shotOf(shot, all, shot.issue === null ? undefined : places[shot.issue])),
    ),
    wanting: numbered.map((reel) => reel.flatMap(({ issue, frame }) => (frame === null && issue !== null ? [issue] : []))),
  };
}

/** Place of each label in its issue: sections in the order in which they first come, supplements last, numbers inside. */
function placesOf(shots: readonly Numbered[]): ReadonlyMap<string, number> {
  const tokens = shots.flatMap(({ token }) => (token === null ? [] : [token]));
  const sections = [...new Set(tokens.map((token) => token.section))];
  const rank = (token: PageToken): number => (token.supplement ? 1000 : 0) + sections.indexOf(token.section);
  const digits = (token: PageToken): number => Number(/\d+$/.exec(token.page)?.[0] ?? '0');
  const sorted = [...tokens].sort((a, b) => rank(a) - rank(b) || digits(a) - digits(b));
  return new Map([...new Set(sorted.map((token) => token.page))].map((page, i) => [page, i + 1]));
}

function shotOf(shot: Numbered, all: readonly Numbered[], places: ReadonlyMap<string, number> | undefined): FilmShot {
  const { frame, kind, issue, token, condition, note, sourceReel, picture, reel } = shot;
  const same = all.filter((other) => other.issue === issue && other.token?.page === token?.page && other.picture !== picture);
  const held = token?.held ?? false;
  const deliver = kind === 'page' && !held;
  const place = token === null ? null : (places?.get(token.page) ?? null);
  // A retake says what it replaces; any other second exposure that is held back says what it repeats.
  const spoilt = token?.retake === true ? same.find((other) => other.token?.held === true) : undefined;
  const named = all.find((other) => other.reel === reel && other.frame === (token?.duplicateOf ?? ''));
  const wanted = same.find((other) => other.token?.held === false && other.frame !== null);
  const repeated = held ? (named ?? (wanted?.token?.retake === true ? undefined : wanted)) : undefined;
  const reference = (other: Numbered | undefined): string | null =>
    other === undefined ? null : other.reel === reel ? (other.frame ?? '') : `${other.reel}:${other.frame ?? ''}`;
  const [, exposure = '0', half = ''] = /^(\d+)([AB]?)$/.exec(frame ?? '') ?? [];
  return {
    frame: frame ?? '',
    exposure: Number(exposure),
    half: half === 'A' || half === 'B' ? half : '',
    kind,
    deliver,
    issue,
    section: token?.section ?? null,
    supplement: token?.supplement ?? false,
    page: token?.page ?? null,
    pagePrinted: token?.printed ?? null,
    order: deliver ? place : null,
    place,
    duplicateOf: reference(repeated),
    retakeOf: reference(spoilt),
    sourceReel,
    condition,
    note,
    picture,
    twin: spoilt?.picture ?? repeated?.picture ?? null,
  };
}
