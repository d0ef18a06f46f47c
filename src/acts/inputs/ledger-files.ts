import { createHash } from 'node:crypto';
import { basename } from 'node:path';
import { daysBetween, isDay } from '../../calendar/civil.js';
import { reviewDaysUsed, reviewDue } from '../../calendar/review-days.js';
import { ledgerResult } from '../../history/ledger-result.js';
import type { Account } from '../../model/account.js';
import type { Findings } from '../../model/findings.js';
import type { LedgerAccount, LedgerDecision, LedgerInput, LedgerReview, LedgerSample } from '../../model/ledger.js';
import { checkedJson, parseJsonLoosely } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { readRegularFile } from '../../read/regular-file.js';
import { formatOf } from '../../read/schemas.js';
import type { Surroundings } from '../surroundings.js';

const LARGEST = 256 * 1024 * 1024;
const DECISIONS = ['accept', 'accept-with-corrections', 'return-for-rework', 'put-off'] as const;

/** Reads what a ledger is made from, one file after the other and each by the format that it names; of a result only what the ledger tells is kept. Throws UserMistake. */
export async function readLedgerFiles(
  paths: readonly string[],
  on: string,
  around: Pick<Surroundings, 'say' | 'signal'>,
): Promise<LedgerInput> {
  const results: LedgerInput['results'][number][] = [];
  const samples: LedgerInput['samples'][number][] = [];
  const decisions: LedgerInput['decisions'][number][] = [];
  const accounts: LedgerInput['accounts'][number][] = [];
  for (const [at, path] of paths.entries()) {
    around.signal.throwIfAborted();
    if (at % 20 === 0) around.say(`Reading ${String(at + 1)} of ${String(paths.length)} files`, 'progress');
    const bytes = await readRegularFile(path, LARGEST);
    const value = parseJsonLoosely(bytes, path);
    const format = fieldOf(value, 'format');
    const file = { name: basename(path), sha256: createHash('sha256').update(bytes).digest('hex') };
    if (format === formatOf('findings')) {
      const result = checkedJson(value, bytes, path, 'findings');
      results.push({ ...file, format, value: ledgerResult(result, reviewOf(result, path, on)) });
    } else if (format === formatOf('sample')) samples.push({ ...file, format, value: sampleOf(value, path) });
    else if (format === formatOf('decision')) decisions.push({ ...file, format, value: decisionOf(value, path, on) });
    else if (format === formatOf('account'))
      accounts.push({ ...file, format, value: accountOf(checkedJson(value, bytes, path, 'account')) });
    else throw otherFormat(path, format);
  }
  return { on, results, samples, decisions, accounts };
}

function otherFormat(path: string, format: unknown): UserMistake {
  const what = typeof format === 'string' ? `says that it is "${format.slice(0, 80)}"` : 'does not say what it is';
  return new UserMistake(
    `${path}: this file ${what}. A ledger is made from saved results ("${formatOf('findings')}"), judged spot checks ("${formatOf('sample')}"), decisions ("${formatOf('decision')}") and accounts ("${formatOf('account')}").`,
  );
}

function accountOf({ vendor, currency, minorDigits, deliveries, sums }: Account): LedgerAccount {
  const { billed, due, released, open } = sums;
  return { vendor, currency, minorDigits, batches: [...new Set(deliveries.map(({ batch }) => batch))], billed, due, released, open };
}

/** Days since the last day of the review, on this day; 0 before that. */
const overdueOn = (on: string, due: string | null): number => (due === null ? 0 : Math.max(0, daysBetween(due, on)));

/** How long the library has for its answer; nothing is used up before a decision says when it was made. */
function reviewOf(result: Findings, path: string, on: string): LedgerReview {
  const { received } = result.run;
  const { terms } = result.agreement;
  if (received !== null && !isDay(received))
    throw new UserMistake(`${path}: run, received: "${received}" is not a day of the calendar. Verify again with --received.`);
  const due = received === null ? null : reviewDue(received, terms);
  return { due, days: terms.reviewDays, dayKind: terms.reviewDayKind, used: null, inTime: null, overdue: overdueOn(on, due) };
}

function decisionOf(value: unknown, path: string, today: string): LedgerDecision {
  const at = (name: string): Field => ({ value: fieldOf(value, name), where: `${path}: ${name}` });
  const review: Field = at('review');
  const inside = (name: string): Field => ({ value: fieldOf(review.value, name), where: `${review.where}, ${name}` });
  const on = day(at('on'));
  const received = inside('received').value === null ? null : day(inside('received'));
  const dayKind = oneOf(inside('dayKind'), ['calendar', 'working'] as const);
  const holidays = list(inside('holidays')).map((holiday) => day({ value: holiday, where: `${review.where}, holidays` }));
  const due = inside('due').value === null ? null : day(inside('due'));
  const decision = oneOf(at('delivery'), DECISIONS);
  return {
    batch: text(at('batch')),
    delivery: count(at('deliveryNumber')),
    decision,
    by: text(at('by')),
    on,
    review: {
      due,
      days: count(inside('days')),
      dayKind,
      used: received === null ? null : reviewDaysUsed(received, on, { reviewDayKind: dayKind, holidays }),
      inTime: due === null ? null : on <= due,
      overdue: decision === 'put-off' ? overdueOn(today, due) : 0,
    },
    samples: list(at('samples')).map((sample, index) => summaryOf(sample, `${path}: samples, entry ${String(index + 1)}`)),
  };
}

/** A spot check as a decision repeats it. */
function summaryOf(value: unknown, where: string): LedgerSample {
  const at = (name: string): Field => ({ value: fieldOf(value, name), where: `${where}, ${name}` });
  const accepted = at('accepted').value;
  if (typeof accepted !== 'boolean') throw new UserMistake(`${where}, accepted: true or false is needed here.`);
  return {
    batch: text(at('batch')),
    delivery: count(at('delivery')),
    lot: '',
    drawn: count(at('drawn')),
    wrong: count(at('nonconforming')),
    accepted,
    betweenNumbers: false,
    draw: `${text(at('listSha256'))} ${text(at('seed'))}`,
  };
}

function sampleOf(value: unknown, path: string): LedgerSample {
  const at = (name: string): Field => ({ value: fieldOf(value, name), where: `${path}: ${name}` });
  const draw = at('draw');
  const lot = fieldOf(at('lot').value, 'name');
  const outcome = oneOf(at('outcome'), ['accepted', 'accepted-back-to-normal', 'rejected'] as const);
  const drawn = (name: string): string => text({ value: fieldOf(draw.value, name), where: `${draw.where}, ${name}` });
  return {
    batch: text(at('batch')),
    delivery: count(at('delivery')),
    lot: typeof lot === 'string' ? lot : '',
    drawn: count(at('drawn')),
    wrong: count(at('wrong')),
    accepted: outcome !== 'rejected',
    betweenNumbers: outcome === 'accepted-back-to-normal',
    draw: `${drawn('listSha256')} ${drawn('seed')}`,
  };
}

/** A value with where it stands, for the sentence about it. */
interface Field {
  readonly value: unknown;
  readonly where: string;
}

function fieldOf(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null && Object.hasOwn(value, name) ? Reflect.get(value, name) : undefined;
}

function text({ value, where }: Field): string {
  if (typeof value !== 'string') throw new UserMistake(`${where}: a text is needed here.`);
  return value;
}

function count({ value, where }: Field): number {
  if (typeof value !== 'number' || !Number.isSafeInteger(value) || value < 0)
    throw new UserMistake(`${where}: a whole number is needed here.`);
  return value;
}

function day({ value, where }: Field): string {
  if (typeof value !== 'string' || !isDay(value))
    throw new UserMistake(`${where}: a day of the calendar is needed here, such as 2026-01-31.`);
  return value;
}

function list({ value, where }: Field): readonly unknown[] {
  if (!Array.isArray(value)) throw new UserMistake(`${where}: a list is needed here.`);
  return value;
}

function oneOf<T extends string>({ value, where }: Field, choices: readonly T[]): T {
  const found = choices.find((choice) => choice === value);
  if (found === undefined) throw new UserMistake(`${where}: one of ${choices.join(', ')} is needed here.`);
  return found;
}
