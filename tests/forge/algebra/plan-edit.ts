import type { Film } from '../film/film.js';
import { randomFrom } from '../film/random.js';
import { callsAbsent, saysNothing, saysOfNext, saysOther } from './absences.js';
import { type Change, changeFact, type Ground } from './change-facts.js';
import { deliverHeld, describeTwice, exchangeTakes, holdPagesBack, moveBoundary } from './delivery.js';
import {
  exchangeDocuments,
  leaveOutDocuments,
  loseFiles,
  mergeDocuments,
  misfileDocuments,
  repeatDocument,
  repeatPictures,
  splitDocument,
  spoilDocuments,
  unlistTargets,
} from './documents.js';
import type { Edit, Planned } from './edit.js';
import { FACTS } from './facts.js';
import type { Sheet } from './sheet.js';
import { leaveOutFrames, repeatFrames } from './things.js';
import { spotsOf, type Unit, unitsOf } from './units.js';

/** Units that are tried before the film is said to have no place for an edit. */
const MOST_TRIES = 12;

/** What else must be so of the unit: that it lies near another edit, or does not touch it. */
export type Fits = (unit: Unit) => boolean;

/** The steps of an edit on the right side of a film, at the first unit that can carry it; null where there is none. */
export function planEdit(edit: Edit, film: Film, sheet: Sheet, fits: Fits = () => true): Planned | null {
  const random = randomFrom(edit.seed);
  const units = unitsOf(film, edit.scope, ofIssue(edit) ? 'issue' : 'frame', random);
  const there = random.shuffled(units.filter((unit) => spotsOf(film, edit.scope, unit).includes(edit.spot) && fits(unit)));
  for (const unit of there.slice(0, MOST_TRIES)) {
    const change = changeOf(edit, { film, sheet, unit, random });
    if (change === null || change.steps.length === 0) continue;
    const [first, last] = [unit.shots[0], unit.shots.at(-1)];
    const box = film.reels[unit.reel]?.number ?? '';
    const where = unit.shots.length === 1 ? `frame ${first?.frame ?? ''}` : `frames ${first?.frame ?? ''} to ${last?.frame ?? ''}`;
    return { edit, steps: change.steps, params: { unit: `reel ${box}, ${where}`, ...change.params } };
  }
  return null;
}

function ofIssue({ what }: Edit): boolean {
  if (what === 'document' || what === 'absence') return true;
  return what in FACTS && FACTS[what as keyof typeof FACTS].of === 'issue';
}

function changeOf(edit: Edit, ground: Ground): Change | null {
  switch (edit.what) {
    case 'frame':
      return edit.how === 'missing' ? leaveOutFrames(edit, ground) : repeatFrames(edit, ground);
    case 'delivery':
      return changeDelivery(edit, ground);
    case 'document':
      return changeDocument(edit, ground);
    case 'file':
      return edit.how === 'missing' ? loseFiles(ground) : repeatPictures(ground);
    case 'target':
      return unlistTargets(ground);
    case 'absence':
      return changeAbsence(edit, ground);
    default:
      return changeFact(edit, ground);
  }
}

function changeDelivery(edit: Edit, ground: Ground): Change | null {
  switch (edit.how) {
    case 'missing':
      return holdPagesBack(edit, ground);
    case 'other':
      return deliverHeld(edit, ground);
    case 'exchanged':
      return exchangeTakes(edit, ground);
    case 'repeated':
      return describeTwice(ground);
    default:
      return moveBoundary(edit, ground);
  }
}

function changeDocument(edit: Edit, ground: Ground): Change | null {
  switch (edit.how) {
    case 'missing':
      return leaveOutDocuments(ground);
    case 'other':
      return spoilDocuments(ground);
    case 'repeated':
      return repeatDocument(ground);
    case 'exchanged':
      return exchangeDocuments(ground);
    case 'merged':
      return mergeDocuments(edit, ground);
    case 'split':
      return splitDocument(edit, ground);
    default:
      return misfileDocuments(ground);
  }
}

function changeAbsence(edit: Edit, ground: Ground): Change | null {
  switch (edit.how) {
    case 'missing':
      return saysNothing(ground);
    case 'other':
      return saysOther(edit, ground);
    case 'moved':
      return saysOfNext(ground);
    default:
      return callsAbsent(edit, ground);
  }
}
