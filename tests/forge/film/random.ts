/** A stream of numbers that is the same for the same seed on every machine: integers only, no floating point drift. */
export interface Random {
  /** A whole number from 0 to `below` - 1. */
  readonly below: (below: number) => number;
  /** True in about `perMille` of a thousand calls. */
  readonly chance: (perMille: number) => boolean;
  /** One member of a list that is not empty. */
  readonly pick: <T>(list: readonly T[]) => T;
  /** The same members in another order. */
  readonly shuffled: <T>(list: readonly T[]) => T[];
}

/** A seeded stream: the 32-bit mixing steps of SplitMix (Steele, Lea and Flood, 2014) over a counter. */
export function randomFrom(seed: number): Random {
  let state = Math.imul(seed | 0, 0x9e3779b1) ^ 0x6a09e667;
  const next = (): number => {
    state = (state + 0x9e3779b9) | 0;
    return mixed(state);
  };
  const below = (limit: number): number => (limit <= 1 ? 0 : next() % limit);
  const pick = <T>(list: readonly T[]): T => {
    const member = list[below(list.length)];
    if (member === undefined) throw new RangeError('There is nothing to pick from.');
    return member;
  };
  const shuffled = <T>(list: readonly T[]): T[] => {
    const left = [...list];
    const out: T[] = [];
    while (left.length > 0) out.push(...left.splice(below(left.length), 1));
    return out;
  };
  return { below, chance: (perMille) => below(1000) < perMille, pick, shuffled };
}

/** 32 bits stirred until every bit of the input reaches every bit of the output. */
export function mixed(value: number): number {
  let z = value | 0;
  z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
  z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
  return (z ^ (z >>> 16)) >>> 0;
}
