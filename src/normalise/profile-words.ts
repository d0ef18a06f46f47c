import { fittingShapes } from '../calendar/date-shape.js';
import type { DocumentPart, FactName, FactSource, Profile } from '../model/profile.js';

/** What each part is called, one of it and several. */
export const PART_WORDS: Readonly<Record<DocumentPart, readonly [string, string]>> = {
  issue: ['issue', 'issues'],
  section: ['section', 'sections'],
  page: ['page', 'pages'],
  target: ['target', 'targets'],
  scannerTarget: ["scanner's target", "scanner's targets"],
  reel: ['reel document', 'reel documents'],
};

/** What each fact is called. */
export const FACT_WORDS: Readonly<Record<FactName, string>> = {
  titleId: 'title identifier',
  date: 'date',
  datePrinted: 'printed date',
  edition: 'edition order',
  editionLabel: 'edition label',
  volume: 'volume',
  issueNumber: 'issue number',
  present: 'statement of being there',
  presentNote: 'note on what is missing',
  section: 'section label',
  page: 'page number',
  order: 'place in the issue',
  reel: 'reel number',
  frame: 'frame number',
};

/** A place in words, as a library reads its own profile. */
export function sourceWords(source: FactSource): string {
  if (typeof source === 'string') return `section ${source}`;
  const pattern = !('pattern' in source)
    ? ''
    : ` with ${typeof source.pattern === 'string' ? source.pattern : source.pattern.join(' or ')}`;
  switch (source.in) {
    case 'folder':
      return `folder, ${String(source.up)} up${pattern}`;
    case 'constant':
      return `constant ${JSON.stringify(source.text)}`;
    case 'document-name':
    case 'file-name':
    case 'place':
    case 'count':
      return `${source.in}${pattern}`;
    default:
      return `${source.in} ${source.path}${pattern}`;
  }
}

/** What was looked for, where, what stands there instead, and what may be so, in sentences. */
export function unfoundWords(
  found: { readonly part: DocumentPart; readonly fact: FactName; readonly missing: number; readonly texts: readonly string[] },
  parts: number,
  profile: Profile,
): string {
  const { part, fact, missing, texts } = found;
  const rule = profile.facts[part][fact];
  const name = FACT_WORDS[fact];
  const of = `${String(parts)} ${PART_WORDS[part][parts === 1 ? 0 : 1]}`;
  const sources = rule?.sources ?? [];
  const where = sources.length === 0 ? 'nowhere' : sources.map(sourceWords).join(', then in ');
  const looked = `The profile "${profile.name}" looks for it in ${where}.`;
  const not =
    missing === 0
      ? ''
      : missing >= parts
        ? ` Nothing stands there in any of ${of}.`
        : ` Nothing stands there in ${String(missing)} of ${of}.`;
  const text =
    texts.length === 0
      ? ''
      : ` In ${String(texts.length)} of ${of} stands something that this profile does not read as ${name}: ${examples(texts)}.${wayToRead(fact, texts, profile)}`;
  const either =
    texts.length === 0
      ? ` Either the profile looks in the wrong place, or the vendor gives no ${name}: look into a document, then correct the profile or send the return back.`
      : ' Correct the profile if the vendor may write it so, or send the return back if not.';
  return `${looked}${not}${text}${either}`;
}

/** Up to three different texts, and how many there are besides. */
export function examples(texts: readonly string[]): string {
  const different = [...new Set(texts)];
  const shown = different.slice(0, 3).map((text) => JSON.stringify(text));
  return different.length > 3 ? `${shown.join(', ')} and ${String(different.length - 3)} more` : shown.join(', ');
}

/** How such texts can be read, where the profile could say so. */
export function wayToRead(fact: FactName, texts: readonly string[], profile: Profile): string {
  if (fact === 'present')
    return ` Its words stand under "present": ${profile.present.map(({ text }) => `"${text}"`).join(', ') || 'none'}.`;
  if (fact !== 'date') return '';
  const shape = profile.facts.issue.date?.shape;
  const shapes = fittingShapes(texts);
  const reads = `It reads days written YYYY-MM-DD or YYYYMMDD${shape === undefined ? '' : ` or ${shape}`}`;
  return shapes.length === 0
    ? ` ${reads}.`
    : ` ${reads}; ${shapes.length === 1 ? 'the shape' : 'one of the shapes'} ${shapes.map((one) => `"${one}"`).join(', ')} would fit.`;
}
