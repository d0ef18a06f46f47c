import type { Finding, ResultFrame, ResultReel } from '../model/findings.js';

/** The frames of one result by the record's numbers, so that two results can be laid beside each other. A key is made by `spot`. */
export interface FilmMap {
  readonly frames: ReadonlyMap<string, ResultFrame>;
  /** What only the return has, behind the frame of the record that stands before it. */
  readonly surplus: ReadonlyMap<string, readonly ResultFrame[]>;
  /** Keys of a reel's frames in film order. */
  readonly order: ReadonlyMap<string, readonly string[]>;
  /** Reels of which anything was compared. */
  readonly compared: ReadonlySet<string>;
  /** Keys of the frames that carry a finding, by its id. */
  readonly named: ReadonlyMap<string, readonly string[]>;
}

/** Where a frame stands. Findings name frames without padding zeros, the strips as the record writes them. */
export function spot(reel: string, frame: string): string {
  return `${reel}\n${frame.trim().replace(/^0+(?=\d)/, '')}`;
}

/** Lays out the strips of a result. */
export function mapFilm(reels: readonly ResultReel[]): FilmMap {
  const frames = new Map<string, ResultFrame>();
  const surplus = new Map<string, ResultFrame[]>();
  const order = new Map<string, string[]>();
  const compared = new Set<string>();
  const named = new Map<string, string[]>();
  for (const reel of reels) {
    const keys: string[] = [];
    // Before the first frame of the record the beginning of the reel stands in for one.
    let before = spot(reel.number, '');
    for (const frame of reel.frames) {
      if (frame.state !== 'not-compared') compared.add(reel.number);
      if (frame.frame === null) push(surplus, before, frame);
      else {
        before = spot(reel.number, frame.frame);
        if (!frames.has(before)) keys.push(before);
        frames.set(before, frames.get(before) ?? frame);
      }
      for (const id of frame.findings) push(named, id, before);
    }
    order.set(reel.number, keys);
  }
  return { frames, surplus, order, compared, named };
}

/** Keys of all frames that a finding is about: those that carry it, its range or list, and where it begins. Empty where nothing is on the film. */
export function spotsOf(finding: Finding, map: FilmMap): readonly string[] {
  const reel = finding.reel ?? '';
  const at = finding.at === null ? [] : [spot(reel, finding.at)];
  return [...new Set([...at, ...rangeSpots(finding, map), ...(map.named.get(finding.id) ?? [])])];
}

function rangeSpots(finding: Finding, map: FilmMap): readonly string[] {
  const { frames, reel } = finding;
  if (frames === null) return [];
  if (frames.list !== undefined) {
    return frames.list.map((name) => {
      const colon = name.lastIndexOf(':');
      return colon < 0 ? spot(reel ?? '', name) : spot(name.slice(0, colon), name.slice(colon + 1));
    });
  }
  const order = map.order.get(reel ?? '') ?? [];
  const [from, to] = [order.indexOf(spot(reel ?? '', frames.from)), order.indexOf(spot(reel ?? '', frames.to))];
  return from < 0 || to < from ? [spot(reel ?? '', frames.from), spot(reel ?? '', frames.to)] : order.slice(from, to + 1);
}

function push<V>(map: Map<string, V[]>, key: string, value: V): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [value]);
  else list.push(value);
}
