import type { CatalogueEntry } from '../model/findings.js';

/** Codes about the order and the numbering of frames on a reel. */
export const SEQUENCE_CODES = [
  {
    code: 'frame-not-scanned',
    group: 'sequence',
    title: 'A frame was not scanned',
    why: 'Every frame of the film is scanned and counted, delivered or not. One that is left out moves every later number away from the film, so that nobody can go back to the exposure on the reel.',
    severity: 'major',
  },
  {
    code: 'frame-scanned-twice',
    group: 'sequence',
    title: 'A frame was scanned twice',
    why: 'The second capture stands for nothing on the film and pushes every later number up by one. Where it is delivered it is also billed.',
    severity: 'major',
  },
  {
    code: 'frame-number-wrong',
    group: 'sequence',
    title: 'The frame number is wrong',
    why: 'The frame number is the only way from the image back to the film, for a rescan next month or a question in thirty years.',
    severity: 'major',
  },
  {
    code: 'frame-number-repeated',
    group: 'sequence',
    title: 'The same frame number is used more than once',
    why: 'Two images under one number cannot both come from that frame, and a request for the frame brings back either of them.',
    severity: 'major',
  },
  {
    code: 'frames-reversed',
    group: 'sequence',
    title: 'Frames stand in reverse order',
    why: 'The film, or a part of it, was scanned from its tail. Each number is wrong although each image may be good; one renumbering mends it.',
    severity: 'major',
  },
  {
    code: 'halves-swapped',
    group: 'sequence',
    title: 'The halves of the exposures are swapped',
    why: 'Where two pages share an exposure the first in reading order is half A. With the halves swapped a reader turns from page 3 back to page 2 on every opening.',
    severity: 'major',
  },
  {
    code: 'halves-shifted',
    group: 'sequence',
    title: 'The halves of the exposures are shifted by one',
    why: 'An exposure with a single page was taken for a pair, or the other way round. From there on each page carries the half, and at times the frame, of its neighbour.',
    severity: 'major',
  },
  {
    code: 'reel-number-wrong',
    group: 'sequence',
    title: 'The reel number is wrong',
    why: 'Frame numbers mean something only within their reel. Under the wrong reel the image cannot be found on film.',
    severity: 'major',
  },
  {
    code: 'exposure-not-split',
    group: 'sequence',
    title: 'An exposure with two pages was not split',
    why: 'Two pages in one image give a reader one page too few, and the text of two pages runs together in the search.',
    severity: 'critical',
  },
  {
    code: 'frame-number-gap',
    group: 'sequence',
    title: 'Frame numbers are not unbroken',
    why: 'The agreement asks for numbers without gaps. A number that is skipped leaves it open whether a frame is wanting.',
    severity: 'minor',
  },
] as const satisfies readonly CatalogueEntry[];
