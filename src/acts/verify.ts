import { basename } from 'node:path';
import { reviewDue } from '../calendar/review-days.js';
import { codeEntry } from '../catalogue/codes.js';
import { changedSince } from '../collation/changed.js';
import { openProblems } from '../collation/check.js';
import { totalsInWords } from '../collation/totals.js';
import { earlierMistakes, otherMistake } from '../history/same-batch.js';
import { agreementMistakes, resolveAgreement } from '../judge/agreement.js';
import { SEVERITIES } from '../judge/verdict.js';
import type { Agreement, ResolvedAgreement } from '../model/agreement.js';
import type { Side } from '../model/film.js';
import type { Findings, Input } from '../model/findings.js';
import type { Profile } from '../model/profile.js';
import { withoutReplaced } from '../normalise/replaced.js';
import { normaliseReturn } from '../normalise/return.js';
import { statedFacts } from '../normalise/return-needs.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { readReturn } from '../read/return.js';
import type { JsonKind, JsonKinds } from '../read/schemas.js';
import { verify } from '../verify.js';
import { answersInWords, readAnswerFiles, withAnswers } from './inputs/answer-files.js';
import { chosenProfiles } from './inputs/chosen-profiles.js';
import { collationRecord } from './inputs/collation-record.js';
import { dayGiven } from './inputs/day-given.js';
import { type EarlierFiles, readEarlier } from './inputs/earlier-result.js';
import { explainedBeside } from './inputs/explained-items.js';
import { readRulingFiles } from './inputs/ruling-files.js';
import { tool } from './program-version.js';
import type { Surroundings } from './surroundings.js';

/** What is to be verified, as the user named it. */
export interface VerificationFiles extends EarlierFiles {
  readonly collation: readonly string[];
  readonly batch: readonly string[];
  readonly profile?: string;
  readonly agreement?: string;
  readonly rulings?: readonly string[];
  readonly answers?: readonly string[];
  readonly sent?: string;
  readonly other?: readonly string[];
  readonly delivery?: string;
  readonly received?: string;
  readonly readText?: true;
  readonly fixity?: true;
}

/** Reads everything, verifies it and gives the result, which says that it was made `now`. Throws UserMistake. */
export async function verification(files: VerificationFiles, { say, signal, now }: Surroundings): Promise<Findings> {
  const onProgress = (text: string): void => {
    signal.throwIfAborted();
    say(text, 'progress');
  };
  const received = files.received === undefined ? null : dayGiven('--received', files.received);
  const inputs: Input[] = [];
  const json = async <K extends JsonKind>(kind: K, role: string, path: string): Promise<JsonKinds[K]> => {
    const { value, sha256 } = await readJsonFile(path, kind);
    // The name alone: a result says nothing of the machine it was made on.
    inputs.push({ role, name: basename(path), sha256 });
    return value;
  };
  const agreement = files.agreement === undefined ? null : await json('agreement', 'agreement', files.agreement);
  refuseMistakes(agreement, files.agreement ?? '');
  if (files.batch.length > 1 && agreement?.policies?.redelivery !== 'named-items') {
    throw new UserMistake(
      '--batch names several folders. That is for a vendor who sends only what was to be corrected: the agreement must say so with the policy "redelivery": "named-items".',
    );
  }
  const profiles = await chosenProfiles(files.profile, (path) => json('profile', 'profile', path));
  const ruled = await readRulingFiles(files.rulings ?? [], now.slice(0, 10));
  const answered = await readAnswerFiles(files.answers ?? []);
  inputs.push(...ruled.inputs, ...answered.inputs);
  if (answered.inputs.length > 0) say(answersInWords(answered), 'remark');
  const { earlier, ...before } = await readEarlier(files, now.slice(0, 10));
  inputs.push(...before.inputs);
  const others: Findings[] = [];
  for (const path of files.other ?? []) others.push(await json('findings', 'other', path));
  const delivery = deliveryNumber(files.delivery, earlier);
  const record = await collationRecord(files.collation);
  say(`The record: ${totalsInWords(record.side)}`, 'remark');
  const explained = await explainedBeside(files.collation);
  inputs.push(...explained.input);
  const sent = files.sent === undefined ? null : await collationRecord([files.sent]);
  inputs.push(...(sent?.inputs ?? []).map((input) => ({ ...input, role: 'sent' })));
  refuseEarlier(
    earlier,
    files.earlier ?? '',
    record.side.reels.map((reel) => reel.text),
    delivery,
  );
  const read = await understoodReturn(files, profiles, earlier, onProgress);
  const { returned, replaced } = read;
  const resolved = resolveAgreement(agreement, read.profile.policies);
  const result = verify({
    record: record.side,
    returned,
    problems: openProblems(record.record, record.side, explained.explanations),
    ...(sent === null ? {} : { sent: { record: sent.side, changes: changedSince(sent.record, record.record) } }),
    stated: statedFacts(read.profile),
    others,
    agreement: withSeverityCaps(resolved, read.profile.severityCaps),
    rulings: ruled.rulings,
    contested: ruled.contested,
    earlier,
    textRead: files.readText ?? false,
    run: {
      at: now,
      received,
      ...(received === null ? {} : { reviewDay: reviewDue(received, resolved.terms) }),
      ...(replaced.length === 0 ? {} : { replaced }),
      batch: read.batch,
      delivery,
      profile: read.profile.name,
      inputs: [...record.inputs, ...read.inputs, ...inputs],
      remarks: [...record.warnings, ...record.side.remarks, ...returned.remarks, ...before.remarks, ...ruled.remarks, ...answered.remarks],
    },
    tool: tool(),
  });
  refuseOthers(others, files.other ?? [], result);
  return withAnswers(result, answered);
}

/** What the vendor sent, as it is understood. What stands in the documents is let go with it: for a large batch it is as much again. */
async function understoodReturn(
  files: VerificationFiles,
  profiles: readonly Profile[],
  earlier: Findings | null,
  onProgress: (text: string) => void,
): Promise<{
  readonly returned: Side;
  readonly replaced: NonNullable<Findings['run']['replaced']>;
  readonly profile: Profile;
  readonly batch: string;
  readonly inputs: readonly Input[];
}> {
  const read = await readReturn(files.batch, {
    profiles,
    readText: files.readText ?? false,
    fixity: files.fixity ?? false,
    onFixity: (done, all) => onProgress(`Holding files against their digests: ${String(done)} of ${String(all)}`),
    onProgress: (documents) => onProgress(`Reading the return: ${String(documents)} documents`),
  });
  if (!read.ok) throw new UserMistake(read.says);
  onProgress('Comparing');
  const { profile, inputs } = read;
  const { written, replaced } = withoutReplaced(read.written, profile, earlier);
  return { returned: normaliseReturn(written, profile), replaced, profile, batch: read.written.batch, inputs };
}

/** Throws UserMistake where an agreement contradicts itself, such as two price classes that pay one page twice. */
export function refuseMistakes(agreement: Agreement | null, path: string): void {
  const mistakes = agreement === null ? [] : agreementMistakes(agreement);
  if (mistakes.length > 0) throw new UserMistake(mistakes.map((sentence) => `${path}: ${sentence}`).join('\n'));
}

function refuseEarlier(earlier: Findings | null, path: string, reels: readonly string[], delivery: number): void {
  const mistakes = earlier === null ? [] : earlierMistakes(earlier, reels, delivery);
  if (mistakes.length > 0) throw new UserMistake(mistakes.map((sentence) => `--earlier ${path}: ${sentence}`).join('\n'));
}

function refuseOthers(others: readonly Findings[], paths: readonly string[], result: Findings): void {
  const mistakes = others.flatMap((other, at) => {
    const sentence = otherMistake(other, result);
    return sentence === null ? [] : [`--other ${paths[at] ?? ''}: ${sentence}`];
  });
  if (mistakes.length > 0) throw new UserMistake(mistakes.join('\n'));
}

/** The severities that the profile holds down; what the agreement itself says of a code goes before. */
function withSeverityCaps(agreement: ResolvedAgreement, caps: Profile['severityCaps']): ResolvedAgreement {
  const capped = Object.entries(caps).filter(
    ([code, cap]) => SEVERITIES.indexOf(codeEntry(code)?.severity ?? 'note') < SEVERITIES.indexOf(cap),
  );
  return { ...agreement, severities: { ...Object.fromEntries(capped), ...agreement.severities } };
}

/** Which delivery of the batch this is: as said, else the one after the earlier result, else the first. */
function deliveryNumber(wish: string | undefined, earlier: Findings | null): number {
  if (wish === undefined) return earlier === null ? 1 : earlier.run.delivery + 1;
  if (!/^[1-9]\d{0,3}$/.test(wish))
    throw new UserMistake(`--delivery: ${wish} is not a count of deliveries. Write 1 for the first, 2 for the next.`);
  return Number(wish);
}
