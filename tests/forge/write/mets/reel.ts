import type { Capture, PlanReel, ReturnPlan } from '../../plan.js';
import { agency, form, identifier, location } from '../facts.js';
import { fileNames } from '../files.js';
import { padded, reelAsPlace, type WriteStyle } from '../style.js';
import { type Element, el } from '../xml.js';
import { idsOf } from './ids.js';
import { administrative, dmd, fileSection, type GroupOfFiles, header, pointers } from './parts.js';

/** What is scanned to test the scanner is not on the film: it has a name of its own and no frame number. */
function scannerTarget(n: number, reel: string): Capture {
  const nothing = { issue: null, order: null, page: null, section: null };
  return { frame: '', reel, picture: 0, use: 'target', ...nothing, width: 7161, height: 9698, image: `scanner target ${n} of ${reel}` };
}

interface ReelGroups {
  readonly scanner: readonly GroupOfFiles[];
  readonly film: readonly GroupOfFiles[];
}

/** The files that a reel document names: the scanner's targets, and those of the film where they are listed. */
export function groupsOfReel(plan: ReturnPlan, reel: PlanReel, style: WriteStyle): ReelGroups {
  const targets = plan.targetsListed ? reel.captures.filter((capture) => capture.use === 'target') : [];
  const names = fileNames(targets);
  const scanner = Array.from({ length: style.scannerTargets }, (_, i) => ({
    capture: scannerTarget(i + 1, reel.number),
    name: `PMT_target-${i + 1}`,
    n: i + 1,
  }));
  const film = targets.map((capture, i) => ({ capture, name: names.get(capture) ?? capture.frame, n: scanner.length + i + 1 }));
  return { scanner, film };
}

/**
 * A reel as it is published (36 of 36 documents of a national programme that were looked at): its number is the document's LABEL and no MODS section
 * describes the reel itself; the scanner's targets stand under a division of their own.
 */
export function reelDocument(plan: ReturnPlan, reel: PlanReel, style: WriteStyle): Element {
  const ids = idsOf(style);
  const { scanner, film } = groupsOfReel(plan, reel, style);
  const label = reelAsPlace(reel.number, style);
  const facts = ['titles', 'startDate', 'endDate', 'position', 'reductionRatio'].flatMap((name) => {
    const text = reel.facts[name];
    if (text === undefined || text === '') return [];
    return [el(`batch:${name}`, {}, name === 'position' && style.smallPosition ? text.toLowerCase() : text)];
  });
  const resolution = el('batch:captureResolutionOriginal', { measurement: 'pixels/inch' }, '400');
  const technical = el(
    'mets:techMD',
    { ID: 'reelTechMD' },
    el(
      'mets:mdWrap',
      { MDTYPE: 'OTHER', OTHERMDTYPE: 'REEL', LABEL: 'Technical metadata of the reel' },
      el('mets:xmlData', {}, el('batch:reelTechMD', {}, ...facts, resolution)),
    ),
  );
  const target = (id: string, { n }: GroupOfFiles): Element => el('mets:div', { TYPE: 'np:target', DMDID: id }, ...pointers(n, ids));
  const scannerDivs = scanner.map((group, i) => target(`techTargetModsBib${i + 1}`, group));
  return el(
    'mets:mets',
    {
      TYPE: 'urn:example:verrin:mets:microfilmReel',
      PROFILE: 'urn:example:verrin:mets:profiles:microfilmReel:v1',
      LABEL: label,
    },
    header(style),
    ...scanner.map((_, i) =>
      dmd(
        `techTargetModsBib${i + 1}`,
        'Metadata of a technical target',
        el('mods:titleInfo', {}, el('mods:title', {}, 'Scanner test target')),
        agency(style),
      ),
    ),
    ...film.map(({ capture }, i) =>
      dmd(
        `targetModsBib${i + 1}`,
        'Target metadata',
        el(
          'mods:relatedItem',
          { type: 'original' },
          style.sourceForm ? form() : null,
          identifier('reel number', capture.reel),
          identifier('reel sequence number', padded(capture.frame, style.padFrames)),
          location(style),
        ),
        agency(style),
      ),
    ),
    administrative([technical], [...scanner, ...film], ids, label, style),
    fileSection('targetFileGrp', [...scanner, ...film], ids, style),
    el(
      'mets:structMap',
      {},
      el(
        'mets:div',
        { TYPE: 'np:reel', ADMID: 'reelTechMD' },
        scannerDivs.length === 0 ? null : el('mets:div', { TYPE: 'np:techtargetreel' }, ...scannerDivs),
        ...film.map((group, i) => target(`targetModsBib${i + 1}`, group)),
      ),
    ),
  );
}
