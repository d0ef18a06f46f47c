import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Finding, Findings } from '../../src/model/findings.js';
import { reeltally } from '../cli/command.js';
import { copyOf, writeStandIns } from './copy.js';
import { type PageFacts, type ReturnFacts, readFacts } from './facts.js';
import { SILENCES, SPOILINGS } from './spoilings/index.js';
import type { Expectation, MustSay } from './spoilings/scene.js';

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
export function tried(one: TriedReturn, work: string): Outcome[] {
  const facts = readFacts(one.folder);
  const place = join(work, one.name);
  const record = join(place, 'record');
  mkdirSync(place, { recursive: true });
  one.writeRecord(record, facts);
  const profile = one.profile === null ? [] : ['--profile', one.profile];
  const trial = (name: string, kind: Outcome['kind'], batch: string, options: readonly string[], expectation: Expectation): Outcome => ({
    set: one.name,
    trial: name,
    kind,
    ...judged(verified(record, batch, [...profile, ...options]), expectation),
  });
  const outcomes = [
    trial('as sent', 'right', one.folder, [], { must: [] }),
    trial('as sent, page text read', 'right', one.folder, ['--read-text'], { must: [] }),
  ];
  const whole = join(place, 'whole');
  copyOf(one.folder, whole);
  writeStandIns(whole);
  const withFiles = readFacts(whole);
  outcomes.push(trial('with all files, digests compared', 'right', whole, [], { must: one.alsoWithFixity }));
  for (const { name, spoil } of [...SPOILINGS, ...SILENCES]) {
    const copy = join(place, 'spoilt');
    copyOf(whole, copy);
    const expectation = spoil({ folder: copy, facts: withFiles, frameOf: namesOf(withFiles), editionInFolder: one.editionInFolder });
    if (expectation !== null)
      outcomes.push(
        trial(name, SPOILINGS.some((other) => other.name === name) ? 'spoilt' : 'silence', copy, [], {
          ...expectation,
          may: [...(expectation.may ?? []), ...one.alsoWithFixity],
        }),
      );
    rmSync(copy, { recursive: true });
  }
  return outcomes;
}

/** How the record calls the frame of a page: its own number, or where none is written its place, counted on. */
function namesOf(facts: ReturnFacts): (page: PageFacts) => string {
  const places = new Map(facts.issues.flatMap(({ pages }) => pages).map((page, at) => [page, String(page.frame ?? at + 1)]));
  return (page) => places.get(page) ?? '';
}

/** The result of a verification, or what was said where it could not run. */
function verified(record: string, batch: string, options: readonly string[]): Findings | string {
  const run = reeltally(['verify', '--collation', record, '--batch', batch, '--format', 'json', '--quiet', ...options]);
  return run.status === 0 || run.status === 1 || run.status === 2 ? (JSON.parse(run.stdout) as Findings) : run.stderr;
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
    names.length === 0 ? '' : `naming ${names.join(', ')}`,
  ];
  return words.filter((word) => word !== '').join(' ');
}

/** Whether a finding says what must be said. */
function says(finding: Finding, one: MustSay): boolean {
  const text = JSON.stringify(finding);
  return (
    one.codes.includes(finding.code) &&
    (one.at === undefined || finding.at === one.at) &&
    (one.date === undefined || finding.date === one.date) &&
    (one.cause === undefined || finding.cause === one.cause) &&
    one.names.every((name) => text.includes(name))
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
