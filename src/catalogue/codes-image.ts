import type { CatalogueEntry } from '../model/findings.js';

/** Codes of what people see in a spot check of the images; no program looks at a picture. */
export const IMAGE_CODES = [
  {
    code: 'image-wrong-page',
    group: 'images',
    title: 'The image shows another page than its data say',
    why: 'A reader who asks for a page of a day and sees another has been misled; data and picture both look whole, so only an eye finds it.',
    severity: 'critical',
  },
  {
    code: 'image-illegible',
    group: 'images',
    title: 'The image cannot be read',
    why: 'What is out of focus, too dark or too light on the screen and not so on the film is lost for readers and for text recognition.',
    severity: 'critical',
  },
  {
    code: 'image-incomplete',
    group: 'images',
    title: 'The image does not show the whole page',
    why: 'What is cut off at an edge or lies in a fold is missing for good once the film is no longer looked at.',
    severity: 'major',
  },
  {
    code: 'image-out-of-order',
    group: 'images',
    title: 'The image stands at another place of its issue',
    why: 'Who turns the pages on the screen reads them in another order than that of the paper.',
    severity: 'major',
  },
] as const satisfies readonly CatalogueEntry[];
