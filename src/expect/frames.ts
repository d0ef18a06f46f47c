import type { Policies } from '../model/agreement.js';
import type { ExpectedFact, ExpectedFrame, ExpectedReel, Needs, Reading, StatedFacts } from '../model/expected.js';
import type { Frame, FrameNumber, Reel } from '../model/film.js';
import { asked, countReading, NO_STATEMENT, sharedFacts, stated, writtenNumber } from './fact.js';

/** A reel of the record as the right return shows it. */
export function expectReel(reel: Reel, policies: Policies, needs: StatedFacts): ExpectedReel {
  const numbers = expectedNumbers(reel, policies);
  const none = asked(stated('must-not'), needs.section);
  const own = asked(stated('must', { key: reel.number, text: reel.text }), needs.reel);
  const orders = sharedFacts();
  const labels = sharedFacts();
  return {
    frames: reel.frames.map((frame, at): ExpectedFrame => {
      const { order, section, sourceReel } = frame;
      const label = (): ExpectedFact => asked(labelOf(frame, policies), needs.page);
      return {
        delivered: deliveredOf(frame),
        listed: listedOf(frame, policies),
        facts: {
          number: asked(numberOf(numbers[at] ?? null), needs.number),
          reel:
            policies.reelNumber === 'source' && sourceReel !== null
              ? asked(stated('must', { key: sourceReel.number, text: sourceReel.text }), needs.reel)
              : own,
          page: isPlainlyLabelled(frame) ? labels(frame.pageKey ?? '', label) : label(),
          order: order === null ? NO_STATEMENT : orders(order, () => asked(stated('must', countReading(order)), needs.order)),
          section: section === null ? none : asked(stated('must', { key: section, text: section }), needs.section),
        },
      };
    }),
    facts: Object.fromEntries(Object.entries(reel.facts).map(([name, text]) => [name, stated('may', reelFactReading(text))])),
  };
}

/** A fact about a reel as it is compared: `15x`, `1:15` and `15` are one reduction, `1a` and `1A` one position. */
export function reelFactReading(text: string): Reading {
  const key = text
    .replace(/\s/g, '')
    .toLowerCase()
    .replace(/x$|^1:/g, '');
  return { key, text };
}

function deliveredOf(frame: Frame): Needs {
  if (!frame.deliver) return 'must-not';
  return frame.kind === 'target' ? 'may' : 'must';
}

function listedOf(frame: Frame, policies: Policies): ExpectedFrame['listed'] {
  if (frame.kind !== 'target') return 'may';
  if (policies.targets === 'listed') return 'must';
  if (policies.targets === 'not-listed') return 'must-not';
  return 'with-others';
}

interface Numbered {
  readonly exposure: number;
  readonly half: string;
}

function numberOf(number: Numbered | null): ExpectedFact {
  if (number === null) return NO_STATEMENT;
  const text = `${String(number.exposure)}${number.half}`;
  return stated('must', { key: text, text });
}

/** The number each frame must have, as exposure and half; null for a place that was counted on. Where halves are numbered on, they are counted from the first frame's number. */
function expectedNumbers(reel: Reel, policies: Policies): (Numbered | null)[] {
  if (policies.splitExposures === 'lettered') return reel.frames.map(writtenNumber);
  let last = 0;
  let before: FrameNumber | null = null;
  return reel.frames.map((frame) => {
    const written = writtenNumber(frame);
    if (written === null) return null;
    last = before === null ? written.exposure : last + Math.max(1, written.exposure - before.exposure);
    before = written;
    return { exposure: last, half: '' };
  });
}

/** Whether the key of its label is all that decides which labels are right for a page. */
function isPlainlyLabelled({ page, pageKey, pagePrinted, section }: Frame): boolean {
  return pageKey !== null && page === pageKey && pagePrinted === null && section === null;
}

/** The label that is right for a page by the agreement; none must be given where nothing is printed and the agreement says `omit`. */
function labelOf(frame: Frame, policies: Policies): ExpectedFact {
  const intended = labelReading(frame.pageKey, frame.page);
  if (frame.pagePrinted === '-') {
    if (policies.unnumberedPage === 'omit') return stated('must-not');
    return withSection(stated(policies.unnumberedPage === 'supply' ? 'must' : 'may', intended), frame);
  }
  const printed = frame.pagePrinted === null ? intended : labelReading(frame.pagePrintedKey, frame.pagePrinted);
  const right = policies.pageNumber === 'printed' ? [printed] : policies.pageNumber === 'intended' ? [intended] : [intended, printed];
  const fact = withSection(stated('must', ...right), frame);
  return fact.right.length === 0 ? stated('must-not') : fact;
}

function labelReading(key: string | null, text: string | null): Reading | null {
  return key === null ? null : { key, text: text ?? key };
}

/** A label written with its section's letter on one side only is the same label. */
function withSection(fact: ExpectedFact, frame: Frame): ExpectedFact {
  const { section } = frame;
  if (section === null) return fact;
  const lettered = fact.right.map(({ key, text }) => ({ key: `${section}${key}`, text }));
  return { ...fact, right: [...fact.right, ...lettered] };
}
