import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import pLimit from 'p-limit';
import type { Finding, Findings } from '../../src/model/findings.js';
import { started } from '../cli/command.js';
import { copyOf, writeStandIns } from './copy.js';
import { type PageFacts, type ReturnFacts, readFacts } from './facts.js';
import { SILENCES, SPOILINGS } from './spoilings/index.js';
import type { Expectation, MustSay, Spoiling } from './spoilings/scene.js';

/** A return to be tried: where it lies, its record, and how it is read. */
export interface TriedReturn {
  readonly name: string;
  /** The folder that is given as the batch. */
  readonly folder: string;
  /** The profile that has to be named; null where the layout is recognised. */
  readonly profile: string | null;
  /** Whether the layout writes the edition in the names of its folders. */
  readonly editionInFolder: boolean;
  /** What is true of the return as it stands, with digests compared. */
  readonly alsoWithFixity: readonly MustSay[];
  readonly writeRecord: (folder: string, facts: ReturnFacts) => void;
}

/** What came of one trial. */
export interface Outcome {
  readonly set: string;
  readonly trial: string;
  /** Whether the return is right, spoilt in one of the twelve ways, or in one of those that are easily passed over. */
  readonly kind: 'right' | 'spoilt' | 'silence';
  readonly verdict: string;
  readonly expected: readonly string[];
  readonly said: readonly string[];
  /** Everything that was said and not expected, and everything that was expected and not said once. */
  readonly surprises: readonly string[];
}

/** Verifies a return as it was sent and with files, then spoilt in every way that it can carry, in a folder of this run. */
export async function tried(one: TriedReturn, work: string): Promise<Outcome[]> {
  const place = join(work, one.name);
  const record = join(place, 'record');
  mkdirSync(place, { recursive: true });
  one.writeRecord(record, readFacts(one.folder));
  const profile = one.profile === null ? [] : ['--profile', one.profile];
  const whole = join(place, 'whole');
  copyOf(one.folder, whole);
  writeStandIns(whole);
  const facts = readFacts(whole);
  const trial = async (trial: string, kind: Outcome['kind'], batch: string, options: readonly string[], expectation: Expectation) => {
    const result = await verified(record, batch, [...profile, ...options]);
    return { set: one.name, trial, kind, ...judged(result, expectation) };
  };
  const spoiltBy = async ({ name, spoil }: Spoiling, kind: Outcome['kind']): Promise<Outcome[]> => {
    const copy = join(place, name.replaceAll(' ', '-'));
    copyOf(whole, copy);
    const expectation = spoil({ folder: copy, facts, frameOf: namesOf(facts), editionInFolder: one.editionInFolder });
    const outcomes =
      expectation === null ? [] : [await trial(name, kind, copy, ['--fixity'], { ...expectation, always: one.alsoWithFixity })];
    rmSync(copy, { recursive: true });
    return outcomes;
  };
  // one process for each of two cores
  const limit = pLimit(2);
  const outcomes = await Promise.all([
    limit(async () => [await trial('as sent', 'right', one.folder, [], { must: [] })]),
    limit(async () => [await trial('as sent, page text read', 'right', one.folder, ['--read-text'], { must: [] })]),
    limit(async () => [await trial('with all files, digests compared', 'right', whole, ['--fixity'], { must: one.alsoWithFixity })]),
    ...SPOILINGS.map((spoiling) => limit(() => spoiltBy(spoiling, 'spoilt'))),
    ...SILENCES.map((spoiling) => limit(() => spoiltBy(spoiling, 'silence'))),
  ]);
  return outcomes.flat();
}

/** How the record calls the frame of a page: its own number, or where none is written its place, counted on. */
function namesOf(facts: ReturnFacts): (page: PageFacts) => string {
  const places = new Map(facts.issues.flatMap(({ pages }) => pages).map((page, at) => [page, String(page.frame ?? at + 1)]));
  return (page) => places.get(page) ?? '';
}

/** The result of a verification, or what was said where it could not run. */
async function verified(record: string, batch: string, options: readonly string[]): Promise<Findings | string> {
  const run = started(['verify', '--collation', record, '--batch', batch, '--format', 'json', '--quiet', ...options]);
  const [result, said] = await Promise.all([text(run.stdout), text(run.stderr)]);
  return result === '' ? said : (JSON.parse(result) as Findings);
}

/** Holds what was said against what had to be said. */
function judged(result: Findings | string, expectation: Expectation): Omit<Outcome, 'set' | 'trial' | 'kind'> {
  const expected = expectation.must.map(wanted);
  if (typeof result === 'string') return { verdict: 'could not run', expected, said: [], surprises: [result.trim()] };
  const left = new Set(result.findings);
  const take = (one: MustSay): boolean => {
    const found = [...left].find((finding) => says(finding, one));
    return found !== undefined && left.delete(found);
  };
  const silent = expectation.must.filter((one) => !take(one)).map((one) => `not said: ${wanted(one)}`);
  for (const one of expectation.may ?? []) take(one);
  for (const one of expectation.always ?? []) while (take(one));
  const tooMuch = grouped([...left]).map((line) => `not expected: ${line}`);
  const decision = result.verdict.decision;
  const verdict = expectation.must.length === 0 && decision !== 'accept' ? [`verdict: ${decision}`] : [];
  return { verdict: decision, expected, said: grouped(result.findings), surprises: [...silent, ...tooMuch, ...verdict] };
}

function wanted({ codes, at, cause, names }: MustSay): string {
  const words = [
    codes.join(' or '),
    at === undefined ? '' : `at ${at}`,
    cause ?? '',
    names.length === 0 ? '' : `naming ${names.map((name) => [name].flat().join(' or ')).join(', ')}`,
  ];
  return words.filter((word) => word !== '').join(' ');
}

/** Whether a finding says what must be said. */
function says(finding: Finding, one: MustSay): boolean {
  const whole = JSON.stringify(finding);
  return (
    one.codes.includes(finding.code) &&
    (one.at === undefined || finding.at === one.at) &&
    (one.date === undefined || finding.date === one.date) &&
    (one.cause === undefined || finding.cause === one.cause) &&
    one.names.every((name) => [name].flat().some((form) => whole.includes(form)))
  );
}

/** Findings as lines; of many of one code the first, and how many more there are. */
function grouped(findings: readonly Finding[]): string[] {
  return [...new Set(findings.map(({ code }) => code))].map((code) => {
    const [first, ...others] = findings.filter((finding) => finding.code === code);
    const more = others.length > 0 ? ` (and ${others.length} more of this code)` : '';
    return first === undefined ? '' : `${first.severity} ${code} at ${first.at ?? '-'}: ${first.says}${more}`;
  });
}
