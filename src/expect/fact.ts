import type { ExpectedFact, Needs, Reading } from '../model/expected.js';
import type { Frame, FrameNumber } from '../model/film.js';

/** A fact of which the record says nothing: whatever the return states is neither right nor wrong. */
export const NO_STATEMENT: ExpectedFact = { needs: 'may', right: [] };

/** A fact that the record states: the readings that are right, nulls left out. */
export function stated(needs: Needs, ...right: readonly (Reading | null)[]): ExpectedFact {
  return { needs, right: right.filter((reading) => reading !== null) };
}

/** Facts that many frames share, each made once: most pages of a reel have labels and places that the pages of every other issue have too. */
export function sharedFacts(): (name: string | number, make: () => ExpectedFact) => ExpectedFact {
  const known = new Map<string | number, ExpectedFact>();
  return (name, make) => {
    let fact = known.get(name);
    if (fact === undefined) {
      fact = make();
      known.set(name, fact);
    }
    return fact;
  };
}

/** A reading whose words are also what is compared, apart from case, padding zeros and white space; null where nothing is written. */
export function plainReading(text: string | null): Reading | null {
  return text === null ? null : { key: plainKey(text), text };
}

/** Case, padding zeros and white space are no difference. */
export function plainKey(text: string): string {
  return text
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/^0+(?=\d)/, '')
    .toLowerCase();
}

/** A whole number as a reading; null where there is none. */
export function countReading(value: number | null): Reading | null {
  return value === null ? null : { key: String(value), text: String(value) };
}

/** The number of a frame that somebody wrote; null for one that was counted on, which is never compared. */
export function writtenNumber(frame: Frame | undefined): FrameNumber | null {
  return frame?.frame == null || frame.frame.inferred === true ? null : frame.frame;
}

/** What the programme asks of a fact that the record states: a fact that its XML need not or cannot hold is never missing. */
export function asked(fact: ExpectedFact, needs: Needs | undefined): ExpectedFact {
  return needs === undefined || fact.needs !== 'must' ? fact : { ...fact, needs };
}
