import { cutOff, issueTwice, technicalTargetNumbered } from './documents.js';
import { fileOutOfTheFolder, fileOverAnother } from './files.js';
import { date, edition, wrongReel } from './issue-facts.js';
import { label, pageOutOfTheXml, pagesExchanged, skippedFrame } from './pages.js';
import type { Spoiling } from './scene.js';

/** The twelve ways in which a return is spoilt. */
export const SPOILINGS: readonly Spoiling[] = [
  date,
  edition,
  label,
  pageOutOfTheXml,
  fileOutOfTheFolder,
  fileOverAnother,
  pagesExchanged,
  issueTwice,
  cutOff,
  wrongReel,
  skippedFrame,
  technicalTargetNumbered,
];

export { SILENCES } from './silences.js';
