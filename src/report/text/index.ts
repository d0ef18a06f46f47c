import type { Finding, Findings } from '../../model/findings.js';
import type { RenderOptions } from '../formats.js';
import { doubtPlace, doubtsInWords, recordDoubts } from '../record-doubts.js';
import { sinceSent } from '../since-sent.js';
import { short } from '../visible.js';
import { answerDueInWords, asSentence, counted, DECISION_WORDS, gapPlaces, stillCounts, worstFirst } from '../words.js';
import { countLines, overview } from './counts.js';
import { bySeverity, findingInShort, findingLines } from './finding.js';
import { nextStep } from './next-step.js';
import { paint } from './paint.js';
import { wrap } from './wrap.js';

const SENTENCE = 700;
const MANY = 6;
const MOST_DOUBTS = 12;

function section(head: string, lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : ['', head, '', ...lines];
}

const bullets = (sentences: readonly string[], width: number): readonly string[] =>
  sentences.flatMap((sentence) => wrap(short(sentence, SENTENCE), width, '  - ', '    '));

/** Which side was changed, where it was not the vendor's alone. */
const CHANGED: Readonly<Record<NonNullable<Finding['changed']>, string>> = {
  return: '',
  record: ' The record was changed here.',
  unclear: ' The record was changed too; which of the two made them agree cannot be told.',
};

/** How the findings stand to those of the earlier delivery; empty where none was given. */
function sinceEarlier({ findings, corrected, pending = [] }: Findings): readonly string[] {
  const all = findings.filter(({ status }) => status === 'open');
  const open = all.length;
  const decided = all.filter((finding) => !stillCounts(finding)).length;
  const fresh = findings.filter(({ status }) => status === 'new').length;
  if (open + fresh + corrected.length + pending.length === 0) return [];
  const sums = [
    `${String(corrected.length)} corrected`,
    `${String(open)} still open${decided === 0 ? '' : ` (${String(decided)} of them decided by the library and no longer counted)`}`,
    `${String(fresh)} new`,
  ];
  const unseen = pending.length === 0 ? '' : `, ${String(pending.length)} of which it cannot be told (see "Not checked")`;
  return [`${sums.join(', ')}${unseen}.`];
}

/** Open problems of the record, those first on which findings rest. */
function recordLines(result: Findings, width: number): readonly string[] {
  const doubts = recordDoubts(result);
  if (doubts.length === 0) return [];
  const more = doubts.length - MOST_DOUBTS;
  return [
    ...wrap(doubtsInWords(doubts, result), width, '  '),
    ...bullets(
      doubts.slice(0, MOST_DOUBTS).map(({ item }) => {
        const place = doubtPlace(item);
        return `${place === '' ? '' : `${place.charAt(0).toUpperCase()}${place.slice(1)}: `}${item.says}${item.likely === null ? '' : ` ${item.likely}`}`;
      }),
      width,
    ),
    ...(more > 0 ? wrap(`and ${String(more)} more; "reeltally collation check" lists them all.`, width, '  ') : []),
  ];
}

function sentLines(result: Findings, width: number): readonly string[] {
  const since = sinceSent(result);
  return since === null ? [] : [...wrap(since.means, width, '  '), ...bullets(since.changes, width)];
}

/** The last lines: what to do next (in a dossier the step that it knows), and the verdict at the very end, where the eye rests in a terminal. */
export function closingLines(result: Findings, options: RenderOptions = {}, next: string = nextStep(result)): readonly string[] {
  const { decision } = result.verdict;
  return [
    ...wrap(`Next: ${next}`, options.width ?? 80, '', '  '),
    `Verdict: ${paint(options.colour ?? false).decision(decision, DECISION_WORDS[decision].toLowerCase())}.`,
  ];
}

/** The summary for a coordinator to read in a terminal, a mail or aloud: verdict and reasons, counts, findings worst first, what was not checked. */
export function renderText(result: Findings, options: RenderOptions = {}): string {
  const width = options.width ?? 80;
  const brush = paint(options.colour ?? false);
  const { run, verdict } = result;
  const counting = worstFirst(result.findings.filter(stillCounts));
  const decided = worstFirst(result.findings.filter((finding) => !stillCounts(finding)));
  const block = (findings: typeof counting, start: number): readonly string[] =>
    findings.flatMap((finding, at) => [...(at === 0 ? [] : ['']), ...findingLines(finding, start + at, result, width, brush)]);
  const severities = bySeverity(counting);
  const answerDue = answerDueInWords(run);
  const lines = [
    brush.decision(verdict.decision, DECISION_WORDS[verdict.decision].toUpperCase()),
    '',
    ...wrap(
      `Batch ${short(run.batch, 160)}, delivery ${String(run.delivery)}${run.received === null ? '' : `, received ${short(run.received, 40)}`}, ` +
        `compared with the collation record at ${short(run.at, 40)}. Layout: ${short(run.profile, 160)}.`,
      width,
    ),
    ...(answerDue === null ? [] : ['', ...wrap(answerDue, width)]),
    ...section('Why', bullets(verdict.reasons, width)),
    ...section('Since the earlier delivery', bullets(sinceEarlier(result), width)),
    ...section('The record since it was sent', sentLines(result, width)),
    ...section('Counts', countLines(result, width)),
    ...(counting.length >= MANY ? section('What was found', overview(counting)) : []),
    ...section(`${counted(counting.length, 'finding')}, worst first (${severities})`, block(counting, 1)),
    ...(result.findings.length === 0 ? ['', 'No finding: what the vendor sent agrees with the collation record.'] : []),
    ...section('Decided by the library, no longer counted', block(decided, counting.length + 1)),
    ...section(
      'Corrected since the earlier delivery',
      bullets(
        result.corrected.map((finding) => `${findingInShort(finding, result)}${CHANGED[finding.changed ?? 'return']}`),
        width,
      ),
    ),
    ...section('The record itself', recordLines(result, width)),
    ...section(
      'Not checked',
      bullets(
        result.unchecked.map((gap) => {
          const places = gapPlaces(gap);
          return `${gap.what}${places === '' ? '' : ` (${places})`}: ${asSentence(gap.why)}${gap.required ? ' This check is required.' : ''}`;
        }),
        width,
      ),
    ),
    ...section('Choices made while reading', bullets(run.remarks, width)),
    '',
    ...closingLines(result, options),
  ];
  return `${lines.join('\n')}\n`;
}
