import type { AbsentEntry, CollationRecord, FrameEntry } from '../model/collation-record.js';
import { isNotedLabel, sectionOfLabel } from '../normalise/pages-notation.js';
import { inWords } from '../normalise/record-parts.js';

const NEVER = ['retakeOf', 'position', 'reduction'] as const satisfies readonly (keyof FrameEntry)[];
/** What a frame that is no page may have in an issue sheet. */
const OF_OTHERS: ReadonlySet<string> = new Set(['frame', 'kind', 'deliver', 'sourceReel', 'note', 'edition']);

/** What an issue sheet has no place for, in sentences; `record` is settled. */
export function issueRefusals(record: CollationRecord): readonly string[] {
  return record.reels.flatMap(({ number, frames, absent }) => [
    ...frames.flatMap((frame) => frameRefusals(frame).map((says) => `reel ${number}, frame ${frame.frame}: ${says}`)),
    ...(absent ?? []).flatMap((entry) => absenceRefusals(entry).map((says) => `reel ${number}, absence of ${entry.date}: ${says}`)),
  ]);
}

function frameRefusals(frame: FrameEntry): readonly string[] {
  const says: string[] = [];
  if (!/^\d{1,9}[AB]?$/.test(frame.frame)) says.push('an issue sheet knows only the halves A and B.');
  if (frame.kind === 'page') return [...says, ...pageRefusals(frame)];
  if (frame.kind === 'other') says.push('an issue sheet has no sign for the kind "other".');
  if (frame.deliver === true) says.push('an issue sheet has no sign for a frame that is not a page and is delivered.');
  for (const [field, value] of Object.entries(frame))
    if (!OF_OTHERS.has(field) && value !== undefined)
      says.push(`an issue sheet cannot hold the ${inWords(field)} of a frame that is not a page.`);
  return says;
}

function pageRefusals(frame: FrameEntry): readonly string[] {
  const says: string[] = [];
  for (const field of NEVER) if (frame[field] !== undefined) says.push(`an issue sheet cannot hold the ${inWords(field)} of a page.`);
  if (frame.date === undefined) says.push('an issue sheet cannot hold a page without a date.');
  if (frame.condition?.some((word) => /[:;,]/.test(word)) === true)
    says.push('an issue sheet cannot hold a condition with a colon, comma or semicolon in it.');
  if (frame.page === undefined) says.push('an issue sheet cannot hold a page without a label.');
  else says.push(...labelRefusals(frame.page, frame.section));
  if (/[()]/.test(frame.pagePrinted ?? ''))
    says.push(`an issue sheet cannot hold brackets in what is printed, "${frame.pagePrinted ?? ''}".`);
  return says;
}

function absenceRefusals(entry: AbsentEntry): readonly string[] {
  if (entry.page === undefined) {
    const field = (['section', 'order'] as const).find((name) => entry[name] !== undefined);
    return field === undefined ? [] : [`an issue sheet cannot hold the ${field} of an absence without a page label.`];
  }
  const says = [...labelRefusals(entry.page, entry.section)];
  if (entry.dateTo !== undefined) says.push('an issue sheet cannot hold an absent page of a span of days.');
  if (entry.note !== undefined) says.push('an issue sheet cannot hold a note about an absent page.');
  return says;
}

function labelRefusals(label: string, section: string | undefined): readonly string[] {
  if (!isNotedLabel(label)) return [`an issue sheet cannot hold the page label "${label}": it means something else in the column "pages".`];
  const implied = sectionOfLabel(label) ?? undefined;
  if (implied === section) return [];
  return [
    implied === undefined
      ? `an issue sheet names the section in the page label, such as ${section ?? ''}${label}; it cannot hold page "${label}" of section "${section ?? ''}".`
      : `an issue sheet reads page "${label}" as one of section ${implied}; it cannot hold ${section === undefined ? 'it without a section' : `it in section "${section}"`}.`,
  ];
}
