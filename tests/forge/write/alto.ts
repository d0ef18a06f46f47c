import { mixed } from '../film/random.js';
import type { Capture } from '../plan.js';
import { type Element, el } from './xml.js';

const SYLLABLES = ['bel', 'dor', 'fen', 'gam', 'hul', 'kes', 'lor', 'mar', 'nib', 'pol', 'quen', 'rus', 'sil', 'tav', 'vor', 'wex'];

/** Words on a line of an invented page. */
const WORDS_OF_PAGE = 24;

/** Words that no other picture has in this order, and no language has at all. */
function wordsOf(picture: number): string[] {
  return Array.from({ length: WORDS_OF_PAGE }, (_, at) => {
    const bits = mixed(picture * 131 + at * 7919);
    return [bits, bits >>> 4, bits >>> 8].map((part) => SYLLABLES[part & 15] ?? '').join('');
  });
}

/** The text of a page as ALTO 2 in 1/1200 inch of an image of 400 dpi; a frame that shows no page has none. */
export function altoOf(capture: Capture, image: string): Element {
  const units = (pixels: number): string => String(pixels * 3);
  const [width, height] = [units(capture.width), units(capture.height)];
  const box = (hpos: number, vpos: number, wide: number, high: number): Record<string, string> => ({
    HPOS: units(hpos),
    VPOS: units(vpos),
    WIDTH: units(wide),
    HEIGHT: units(high),
  });
  const words = capture.use === 'page' ? wordsOf(capture.picture) : [];
  const strings = words.map((word, at) =>
    el('alto:String', { ID: `S${at + 1}`, CONTENT: word, ...box(200 + at * 150, 400, 140, 60), WC: '0.91' }),
  );
  const block = el(
    'alto:TextBlock',
    { ID: 'B1', ...box(200, 400, 3600, 60) },
    el('alto:TextLine', { ID: 'L1', ...box(200, 400, 3600, 60) }, ...strings),
  );
  return el(
    'alto:alto',
    {},
    el(
      'alto:Description',
      {},
      el('alto:MeasurementUnit', {}, 'inch1200'),
      el('alto:sourceImageInformation', {}, el('alto:fileName', {}, image)),
    ),
    el(
      'alto:Layout',
      {},
      el(
        'alto:Page',
        {
          ID: 'P1',
          PHYSICAL_IMG_NR: String(Number.parseInt(capture.frame, 10) || 1),
          PRINTED_IMG_NR: capture.page,
          HEIGHT: height,
          WIDTH: width,
        },
        el('alto:PrintSpace', { ID: 'PS1', HPOS: '0', VPOS: '0', WIDTH: width, HEIGHT: height }, words.length === 0 ? null : block),
      ),
    ),
  );
}
