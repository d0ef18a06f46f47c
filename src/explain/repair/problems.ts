import type { PairRef } from '../../model/difference.js';
import type { ExpectedFact, FrameFact, IssueFact } from '../../model/expected.js';
import type { DocumentProblem, Place } from '../../model/film.js';
import type { Repair } from '../../model/findings.js';
import { type Fact, isOfIssue } from '../facts/statements.js';
import { expectedFrame, returnFrame, type Scene } from '../scene.js';
import { inDocument, theirReel } from './places.js';

/** Steps for what is wrong of the documents themselves: for each place what must stand there, where the record tells. */
export function problemSteps(scene: Scene, { place, each, field, returned, collation }: DocumentProblem): Repair[] {
  const entries = each ?? [{ place, text: returned }];
  return entries.map(({ place: where, text }) => ({
    do: 'set',
    ...inDocument(where),
    frame: each === undefined ? null : numberAt(scene, where),
    field,
    from: text,
    // what stands there and must not is left out
    to: each === undefined || text !== null ? collation : rightAt(scene, where, field),
  }));
}

const placeKey = ({ document, element }: Place): string => `${document ?? ''}\n${element ?? ''}`;

/** Frames of the return, and the issues of the record that its documents show most of, by where they stand. */
interface Places {
  readonly frames: ReadonlyMap<string, PairRef>;
  readonly issues: ReadonlyMap<string, number>;
}

const known = new WeakMap<Scene, Places>();

function placesIn(scene: Scene): Places {
  const before = known.get(scene);
  if (before !== undefined) return before;
  const frames = scene.alignments.flatMap(({ pairs }, alignment) =>
    pairs.flatMap((_, pair): [string, PairRef][] => {
      const ref = { alignment, pair };
      const frame = returnFrame(scene, ref);
      return frame === undefined ? [] : [[placeKey(frame.place), ref]];
    }),
  );
  const issues = scene.meetings
    .toSorted((a, b) => a.pairs.length - b.pairs.length)
    .map(({ recordIssue, returnIssue }) => [placeKey(scene.returned.issues[returnIssue]?.place ?? {}), recordIssue] as const);
  const found = { frames: new Map(frames), issues: new Map(issues) };
  known.set(scene, found);
  return found;
}

function numberAt(scene: Scene, place: Place): string | null {
  const ref = placesIn(scene).frames.get(placeKey(place));
  return ref === undefined ? null : (returnFrame(scene, ref)?.frame?.text ?? null);
}

/** What the record has for a page or a document that leaves a fact out; null where the film does not show of which page or issue it is. */
function rightAt(scene: Scene, place: Place, field: string | null): string | null {
  const fact = (field === 'frame' ? 'number' : (field ?? '')) as Fact;
  return (isOfIssue(fact) ? rightOfIssue(scene, place, fact) : rightOfPage(scene, place, fact)) ?? null;
}

function rightOfIssue(scene: Scene, place: Place, fact: IssueFact): string | undefined {
  const issue = placesIn(scene).issues.get(placeKey(place));
  return issue === undefined ? undefined : scene.expected.issues[issue]?.[fact].right[0]?.text;
}

function rightOfPage(scene: Scene, place: Place, fact: FrameFact): string | undefined {
  const ref = placesIn(scene).frames.get(placeKey(place));
  if (ref === undefined) return undefined;
  const facts: Readonly<Partial<Record<string, ExpectedFact>>> = expectedFrame(scene, ref)?.facts ?? {};
  const right = facts[fact]?.right[0];
  return (fact === 'reel' ? theirReel(scene, right?.key) : null) ?? right?.text;
}
