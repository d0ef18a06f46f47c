import { basename, dirname, sep } from 'node:path';
import type { Account } from '../model/account.js';
import type { DecidedSample, DecisionInput, DecisionRecord, DeliveryDecision, OpenDraw, Sourced } from '../model/decision.js';
import type { Findings } from '../model/findings.js';
import { takenIn } from '../payment/account.js';
import { decide } from '../payment/decide.js';
import { accountDelivery, resultMistake } from '../payment/delivery.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { renderDecisionHtml } from '../report/decision/html.js';
import { decisionText } from '../report/decision/json.js';
import type { Seal } from '../report/decision/parts.js';
import { renderDecisionText } from '../report/decision/text.js';
import { jsonText } from '../report/json.js';
import { readJudgedSample, reelLots } from './inputs/judged-sample.js';
import { writeAccount } from './invoice.js';
import { policyDigest } from './outputs/policy-digest.js';
import type { ResultFile } from './outputs/results-folder.js';

/** What a decision rests on, as paths, what is decided, and who decides on which day. */
export interface DecisionFiles extends Pick<DecisionInput, 'delivery' | 'release' | 'also' | 'reason' | 'by' | 'second' | 'on'> {
  readonly findings: string;
  readonly samples: readonly string[];
  /** Draws of this delivery that were not judged; none outside a dossier, which alone knows of them. */
  readonly openDraws?: readonly string[];
  readonly account: string | null;
  /** Begins an account with the result where none is named; it is given back and not written. */
  readonly begin?: boolean;
}

/** Every file that a decision puts into its folder. */
export const DECISION_FILES: ReadonlySet<string> = new Set(['decision.json', 'decision.html', 'decision.txt']);

/** What a person may decide about a delivery, in the order of the help. */
export const DELIVERY_DECISIONS: readonly DeliveryDecision[] = ['accept', 'accept-with-corrections', 'return-for-rework', 'put-off'];

/** A decision, and the account to be written again; null where none is kept. */
export interface DecisionMade {
  readonly record: DecisionRecord;
  readonly account: { readonly path: string | null; readonly value: Account } | null;
}

/** Puts together what a person decides about a delivery and its money. Writes nothing. Throws UserMistake. */
export async function decisionOf(files: DecisionFiles): Promise<DecisionMade> {
  const read = await readJsonFile(files.findings, 'findings');
  const findings: Sourced<Findings> = { value: read.value, name: basename(files.findings), sha256: read.sha256 };
  const samples: Sourced<DecidedSample>[] = [];
  const draws = new Set<string>();
  for (const path of files.samples) {
    const { sample, draw } = await readJudgedSample(path, findings.value);
    if (draws.has(draw)) throw new UserMistake(`${path}: this spot check was given already; each counts once.`);
    draws.add(draw);
    samples.push(sample);
  }
  const openDraws = await openDrawsOf(files.openDraws ?? [], findings.value);
  const account = files.account !== null ? await accountWith(files.account, findings) : files.begin === true ? begunWith(findings) : null;
  const { delivery, release, also, reason, by, second, on } = files;
  const made = decide({
    findings,
    samples,
    openDraws,
    lots: reelLots(findings.value),
    account,
    delivery,
    release,
    also,
    reason,
    by,
    second,
    on,
  });
  if (made.record === null) throw new UserMistake(made.mistakes.join('\n'));
  return {
    record: made.record,
    account: made.account === null ? null : { path: files.account, value: made.account },
  };
}

async function openDrawsOf(paths: readonly string[], findings: Findings): Promise<readonly OpenDraw[]> {
  const draws: OpenDraw[] = [];
  for (const path of paths) {
    const { value, sha256 } = await readJsonFile(path, 'draw');
    const lots = value.lot.by === 'reel' ? [value.lot.name] : reelLots(findings);
    draws.push({
      place: dirname(path)
        .split(sep)
        .slice(-3)
        .join('/')
        .replace(/^.*(?=spot\/)/, ''),
      name: basename(path),
      sha256,
      lots,
    });
  }
  return draws;
}

/** The account in a file with this result in it, in place of an earlier result of the same delivery. */
async function accountWith(path: string, { value, name, sha256 }: Sourced<Findings>): Promise<Sourced<Account>> {
  const kept = await readJsonFile(path, 'account');
  const mistake = resultMistake(value, name);
  if (mistake !== null) throw new UserMistake(mistake);
  const delivery = accountDelivery(value, { name, sha256 });
  const others = kept.value.deliveries.filter((one) => one.batch !== delivery.batch || one.delivery !== delivery.delivery);
  const taken = takenIn({ ...kept.value, deliveries: others }, [{ delivery, agreement: value.agreement }], []);
  if (taken.account === null) throw new UserMistake(taken.mistakes.join('\n'));
  return { value: taken.account, name: basename(path), sha256: kept.sha256 };
}

/** An account that begins with this result; null where its agreement has no prices. Its name is empty: it lies nowhere yet. */
function begunWith({ value, name, sha256 }: Sourced<Findings>): Sourced<Account> | null {
  if (value.agreement.terms.classes.length === 0) return null;
  const { account, mistakes } = takenIn(null, [{ delivery: accountDelivery(value, { name, sha256 }), agreement: value.agreement }], []);
  if (account === null) throw new UserMistake(mistakes.join('\n'));
  return { value: account, name: '', sha256: '' };
}

/** The account of a decision as a file. */
export const accountFile = ({ account }: DecisionMade): readonly ResultFile[] =>
  account === null ? [] : [{ name: 'account.json', content: jsonText(account.value) }];

/** Writes the account of a decision in place of what was there. */
export async function keepAccount({ account }: DecisionMade): Promise<void> {
  if (account !== null && account.path !== null) await writeAccount(account.path, account.value);
}

/** A decision as the program reads it. */
export const decisionData = (record: DecisionRecord): ResultFile => ({ name: 'decision.json', content: decisionText(record) });

/** A decision as people read it; in a dossier its `seal` ties it to the journal. */
export function decisionPages(record: DecisionRecord, seal: Seal | null): readonly ResultFile[] {
  return [
    { name: 'decision.html', content: decisionPage(record, seal) },
    { name: 'decision.txt', content: renderDecisionText(record, 80, seal) },
  ];
}

/** A decision as the page that is printed and signed. */
export const decisionPage = (record: DecisionRecord, seal: Seal | null): string => renderDecisionHtml(record, policyDigest, seal);
