import { LIBRARY } from '../film/names.js';
import type { Capture, PlanAbsentPage, PlanIssue } from '../plan.js';
import { padded, type WriteStyle, wording } from './style.js';
import { type Element, el } from './xml.js';

/** Facts of one page, present or known to be absent, as both layouts write them. */
export interface PageFacts {
  readonly order: number | null;
  readonly page: string | null;
  readonly section: string | null;
  readonly reel: string | null;
  /** Null for a page that has no frame. */
  readonly frame: string | null;
  readonly statement: 'present' | 'published' | 'not-published' | 'unknown';
}

export function factsOfCapture(capture: Capture, suffix = ''): PageFacts {
  const said = (fact: 'order' | 'reel' | 'frame'): boolean => capture.silent?.includes(fact) !== true;
  return {
    order: said('order') ? capture.order : null,
    page: capture.page,
    section: capture.section,
    reel: said('reel') ? capture.reel + suffix : null,
    frame: said('frame') ? capture.frame : null,
    statement: 'present',
  };
}

export function factsOfAbsent(page: PlanAbsentPage, reel: string): PageFacts {
  return { ...page, reel, frame: null };
}

export function detail(type: string, number: string | null, caption: string | null = null): Element | null {
  if (number === null) return null;
  return el('mods:detail', { type }, el('mods:number', {}, number), caption === null ? null : el('mods:caption', {}, caption));
}

export function identifier(type: string, text: string | null): Element | null {
  return text === null ? null : el('mods:identifier', { type }, text);
}

/** `part` with the page's place, its label and, where the layout repeats it on every page, its section. */
export function partOf(facts: PageFacts, numberType: string, sectionType: string | null, style: WriteStyle): Element {
  return el(
    'mods:part',
    {},
    facts.order === null ? null : el('mods:extent', { unit: 'pages' }, el('mods:start', {}, String(facts.order))),
    sectionType === null || facts.section === null ? null : detail(sectionType, style.sectionPrefix + facts.section),
    detail(numberType, facts.page),
  );
}

export function frameText(facts: PageFacts, style: WriteStyle): string | null {
  return facts.frame === null ? null : padded(facts.frame, style.padFrames);
}

export function reproductionNote(
  statement: PageFacts['statement'],
  spelling: 'digitized' | 'digitised',
  text: string | null = null,
): Element {
  const comment = statement === 'present' ? null : 'Not on the film';
  return el('mods:note', { type: 'noteAboutReproduction', displayLabel: comment }, text ?? wording(statement, spelling));
}

/** Where the film is kept, or null where the supplier leaves it out. */
export function location(style: WriteStyle): Element | null {
  if (!style.location) return null;
  return el('mods:location', {}, el('mods:physicalLocation', { authority: 'marcorg', displayLabel: LIBRARY.name }, codeOf(style)));
}

/** Who is responsible for the reproduction. */
export function agency(style: WriteStyle): Element {
  return el('mods:note', { type: 'agencyResponsibleForReproduction', displayLabel: LIBRARY.name }, codeOf(style));
}

/** The library's code; published documents have it in capitals where the manifest has it in small letters. */
const codeOf = (style: WriteStyle): string => (style.capitalCode ? LIBRARY.code.toUpperCase() : LIBRARY.code);

/** The form of the source. */
export function form(): Element {
  return el('mods:physicalDescription', {}, el('mods:form', { type: 'microfilm' }));
}

export function dates(issue: PlanIssue): Element {
  const printed =
    issue.datePrinted === null ? null : el('mods:dateIssued', { encoding: 'iso8601', qualifier: 'questionable' }, issue.datePrinted);
  const real = issue.silent?.includes('date') === true ? null : el('mods:dateIssued', { encoding: 'iso8601' }, issue.date);
  return el('mods:originInfo', {}, real, printed);
}

/** `part` of the host with volume, number and edition. */
export function numbers(issue: PlanIssue): Element {
  return el(
    'mods:part',
    {},
    detail('volume', issue.volume),
    detail('issue', issue.issueNumber),
    issue.silent?.includes('edition') === true
      ? unnumberedEdition(issue.editionLabel)
      : detail('edition', String(issue.edition), issue.editionLabel),
  );
}

/** The identifier of the title, unless the document leaves it out. */
export function titleOf(issue: PlanIssue): string | null {
  return issue.silent?.includes('title') === true ? null : issue.title;
}

function unnumberedEdition(label: string | null): Element | null {
  return label === null ? null : el('mods:detail', { type: 'edition' }, el('mods:caption', {}, label));
}

/** Image metadata: size in pixels and, where one is given, the digest, which only MIX 2.0 can hold. */
export function mixOf(capture: Capture, style: WriteStyle, digest: string | null): Element {
  const [width, height] = [String(capture.width), String(capture.height)];
  if (style.mix === '2.0' || digest !== null) {
    const fixity = el('mix2:Fixity', {}, el('mix2:messageDigestAlgorithm', {}, 'SHA-1'), el('mix2:messageDigest', {}, digest ?? ''));
    return el(
      'mix2:mix',
      {},
      digest === null ? null : el('mix2:BasicDigitalObjectInformation', {}, fixity),
      el(
        'mix2:BasicImageInformation',
        {},
        el('mix2:BasicImageCharacteristics', {}, el('mix2:imageWidth', {}, width), el('mix2:imageHeight', {}, height)),
      ),
    );
  }
  const metrics = el(
    'mix:SpatialMetrics',
    {},
    el('mix:SamplingFrequencyUnit', {}, '2'),
    el('mix:XSamplingFrequency', {}, '400'),
    el('mix:YSamplingFrequency', {}, '400'),
    el('mix:ImageWidth', {}, width),
    el('mix:ImageLength', {}, height),
  );
  return el(
    'mix:mix',
    {},
    el('mix:ImageCreation', {}, el('mix:SourceType', {}, 'microfilm')),
    el('mix:ImagingPerformanceAssessment', {}, metrics),
  );
}
