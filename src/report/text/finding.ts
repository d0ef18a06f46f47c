import type { Finding, Findings } from '../../model/findings.js';
import { short } from '../visible.js';
import { answerInWords, CAUSE_WORDS, counted, framesInWords, SEVERITIES, stillCounts } from '../words.js';
import type { Paint } from './paint.js';
import { placeLines } from './places.js';
import { wrap } from './wrap.js';

const SENTENCE = 700;
const VALUE = 160;

/** Where on the film: `Reel 0012, frames 42 to 812 (771 frames, from frame 41 on)`. */
export function whereOnFilm(finding: Finding): string {
  const named = finding.frames?.list?.some((name) => name.includes(':')) ?? false;
  const reel = finding.reel === null || named ? [] : [`reel ${short(finding.reel, VALUE)}`];
  if (finding.frames === null) {
    return [...reel, ...(finding.at === null ? [] : [`at frame ${short(finding.at, VALUE)}`]), 'nothing on the film'].join(', ');
  }
  const words = short(framesInWords(finding.frames), VALUE);
  const begins =
    finding.at !== null && finding.at !== finding.frames.from ? `; it begins with what happened at frame ${short(finding.at, VALUE)}` : '';
  return `${[...reel, words].join(', ')} (${counted(finding.count, 'frame')}${begins})`;
}

/** Which issue: `The Tolmouth Lantern, 1899-01-05, edition 2, page 3`. */
export function whichIssue(finding: Finding, result: Findings): string {
  const name = result.titles.find((title) => title.id === finding.title)?.name;
  return [
    name ?? finding.title,
    finding.date,
    finding.edition === null || finding.edition === 1 ? null : `edition ${String(finding.edition)}`,
    finding.page === null ? null : `page ${finding.page}`,
  ]
    .filter((part) => part !== null)
    .map((part) => short(part, VALUE))
    .join(', ');
}

/** The name of a field as words: `datePrinted` as `date printed`. */
export const inWords = (field: string): string => field.replace(/(?<=[a-z])[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

/** The first line and the place of a finding, for lists that say no more. */
export function findingInShort(finding: Finding, result: Findings): string {
  const title = result.catalogue.find((entry) => entry.code === finding.code)?.title ?? finding.code;
  const issue = whichIssue(finding, result);
  return `${title}: ${whereOnFilm(finding)}${issue === '' ? '' : `; ${issue}`}.`;
}

/** One finding as a block of lines: what, where, what is so, both readings, what to do, why it is thought so. */
export function findingLines(finding: Finding, number: number, result: Findings, width: number, brush: Paint): readonly string[] {
  const lead = `${String(number)}. `;
  const indent = ' '.repeat(lead.length);
  const entry = result.catalogue.find((known) => known.code === finding.code);
  const title = entry === undefined ? '' : ` ${short(entry.title, VALUE)}.`;
  const head = wrap(`${finding.severity.toUpperCase()} ${short(finding.code, VALUE)}.${title}`, width, lead, indent);
  const say = (label: string, text: string, limit = SENTENCE): readonly string[] =>
    wrap(`${label}${short(text, limit)}`, width, indent, `${indent}  `);
  const reading = finding.collation !== null || finding.return !== null;
  // Whether a frame is to be delivered is what the reading itself says.
  const field = finding.field === null || finding.field === 'deliver' ? '' : `, ${short(inWords(finding.field), VALUE)}`;
  const place = whereOnFilm(finding);
  return [
    ...head.map((line, at) =>
      at === 0 ? line.replace(finding.severity.toUpperCase(), (word) => brush.severity(finding.severity, word)) : line,
    ),
    ...say('', `${place.charAt(0).toUpperCase()}${place.slice(1)}`),
    ...(whichIssue(finding, result) === '' ? [] : say('', whichIssue(finding, result))),
    ...say('', finding.says),
    ...(reading ? say(`The record${field}: `, finding.collation ?? 'nothing', VALUE) : []),
    ...(reading ? say(`The return${field}: `, finding.return ?? 'nothing', VALUE) : []),
    ...(finding.instruction === null || !stillCounts(finding) ? [] : say('What to do: ', finding.instruction)),
    ...(finding.rescan === 'yes' ? say('', 'A rescan is needed.') : []),
    ...finding.billable.map((line) => `${indent}Billing: ${short(line.class, VALUE)} ${line.change > 0 ? '+' : ''}${String(line.change)}`),
    ...say('Likely cause: ', `${CAUSE_WORDS[finding.cause]}.${finding.evidence.length === 0 ? '' : ` ${finding.evidence.join(' ')}`}`),
    ...finding.alternatives.flatMap((other) =>
      say(
        'Or else: ',
        `${other.says} (Cause: ${CAUSE_WORDS[other.cause]}.)${other.instruction === null ? '' : ` Then: ${other.instruction}`}`,
      ),
    ),
    ...placeLines(finding.places).flatMap(([label, text]) => say(label, text)),
    ...(finding.status === undefined
      ? []
      : say('', finding.status === 'open' ? 'Open since an earlier delivery.' : 'New in this delivery.')),
    ...(finding.answer === null
      ? []
      : say(`Vendor's answer${finding.answer.on === '' ? '' : ` of ${short(finding.answer.on, VALUE)}`}: `, answerInWords(finding.answer))),
    ...(finding.ruling === null
      ? []
      : say("Library's decision: ", `${finding.ruling.decision}, by ${finding.ruling.by} on ${finding.ruling.on}. ${finding.ruling.note}`)),
    ...say('Id: ', finding.id, 300),
  ];
}

/** `2 critical, 1 major`; empty for no finding. */
export function bySeverity(findings: readonly Finding[]): string {
  return SEVERITIES.map((severity) => [severity, findings.filter((finding) => finding.severity === severity).length] as const)
    .filter(([, count]) => count > 0)
    .map(([severity, count]) => `${String(count)} ${severity}`)
    .join(', ');
}
