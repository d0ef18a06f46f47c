import { basename } from 'node:path';
import type { FactSource, Profile } from '../model/profile.js';
import type { WrittenReturn } from '../model/written-return.js';
import { readPresent } from '../normalise/return-facts.js';
import { NAMED_PROFILES } from '../profiles/index.js';
import { WHERE_RECORDED } from '../read/facts/part-facts.js';
import { type FactSurvey, newSurvey, type PlaceSurvey } from '../read/facts/survey.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { readReturn } from '../read/return.js';
import { chosenProfiles, noSuchProfile } from './chosen-profiles.js';
import { print } from './streams.js';

/** Prints a built-in profile as a library's own profile that starts from nothing: complete, to be changed. */
export async function profileShow(name: string): Promise<number> {
  const profile = NAMED_PROFILES.find((candidate) => candidate.name === name);
  if (profile === undefined) throw new UserMistake(noSuchProfile(name));
  const { format, name: own, ...rest } = profile;
  await print(`${JSON.stringify({ format, name: own, startsFrom: 'nothing', ...rest }, null, 2)}\n`);
  return 0;
}

/** Reads a return with a profile and prints what was found where; gives 1 where something that must be there is not. */
export async function profileTry(wish: string, options: { readonly batch: readonly string[] }): Promise<number> {
  const profiles = await chosenProfiles(wish, async (path) => (await readJsonFile(path, 'profile')).value);
  const [profile] = profiles;
  if (profile === undefined) throw new UserMistake(noSuchProfile(wish));
  const survey = newSurvey(profile);
  const read = await readReturn(options.batch, { profiles: [profile], readText: false, onFact: survey.seen });
  if (!read.ok) throw new UserMistake(read.says);
  const parts = countParts(read.written, profile);
  const facts = survey.facts();
  const missing = facts.filter((fact) => isMissing(fact, parts[fact.part]));
  const surplus = facts.filter(({ rule, found }) => rule.needs === 'must-not' && found > 0);
  const lines = [
    `The profile "${profile.name}" read the batch "${basename(read.written.batch)}".`,
    '',
    ...documentLines(profile, read.written),
    '',
    ...partLines(parts),
    '',
    ...facts.filter(({ part }) => parts[part] > 0).flatMap((fact) => factLines(fact, parts[fact.part])),
    '',
    ...fileLines(profile, read.written),
    '',
    ...problemLines(read.written),
    missing.length === 0 && surplus.length === 0
      ? 'Everything that must be there was found.'
      : `Not as the profile says: ${[...missing.map(missingWords), ...surplus.map(surplusWords)].join('; ')}.`,
  ];
  await print(`${lines.join('\n')}\n`);
  return missing.length === 0 && surplus.length === 0 && parts.issue > 0 ? 0 : 1;
}

type Parts = Readonly<Record<FactSurvey['part'], number>>;

/** How many of each part there are; pages that are said to be missing state little, and are left out. */
function countParts({ issues, reels }: WrittenReturn, profile: Profile): Parts {
  const isThere = (present: string | undefined): boolean =>
    present === undefined || readPresent(present, profile.present)?.present !== false;
  const pages = issues.flatMap((issue) => issue.pages).filter((page) => isThere(page.facts.present));
  return {
    issue: issues.length,
    section: pages.filter((page) => page.facts.section !== undefined).length,
    page: pages.length,
    target: reels.reduce((sum, reel) => sum + reel.targets.length, 0),
    scannerTarget: 0,
    reel: reels.length,
  };
}

/** A fact that every part must state and does not. */
function isMissing({ fact, rule, found }: FactSurvey, parts: number): boolean {
  return rule.needs === 'must' && rule.movedBy === undefined && !WHERE_RECORDED.has(fact) && found < parts;
}

function missingWords({ part, fact, found }: FactSurvey): string {
  return `${part} ${fact} must be stated and ${found === 0 ? 'was not found' : `was found ${times(found)} only`}`;
}

function surplusWords({ part, fact, found }: FactSurvey): string {
  return `${part} ${fact} must not be stated and was found ${times(found)}`;
}

function documentLines(profile: Profile, written: WrittenReturn): readonly string[] {
  const issues = new Set(written.issues.map((issue) => issue.place.document));
  const unreadable = written.problems.filter((problem) => problem.code === 'document-unreadable').length;
  return [
    `Documents: ${counted(issues.size, 'issue document')}, ${counted(written.reels.length, 'reel document')}${unreadable === 0 ? '' : `, ${String(unreadable)} that cannot be read`}.`,
    ...Object.entries(profile.documents)
      .filter(([, rule]) => rule.needs !== undefined && rule.needs !== 'may')
      .map(([kind, rule]) => `  ${kind}: ${rule.needs ?? 'may'}`),
  ];
}

function partLines(parts: Parts): readonly string[] {
  return [
    `Parts: ${counted(parts.issue, 'issue')}, ${counted(parts.page, 'page')}, ${counted(parts.target, 'target')}, ${counted(parts.reel, 'reel')}.`,
    ...(parts.issue === 0 ? ['  No division is an issue: see "divisions" and "documents" of the profile.'] : []),
    ...(parts.issue > 0 && parts.page === 0 ? ['  No issue has a page: see "divisions" and "pagesOfIssue" of the profile.'] : []),
  ];
}

function factLines(survey: FactSurvey, parts: number): readonly string[] {
  const { part, fact, rule, found, places } = survey;
  const counts = rule.sources.some((source) => typeof source !== 'string' && source.in === 'count');
  const how =
    found === 0 && counts
      ? `counted on for ${counted(parts, part)}`
      : found === 0
        ? 'not found'
        : `found for ${String(found)} of ${counted(parts, part)}`;
  const recorded = rule.needs === 'must' && WHERE_RECORDED.has(fact) ? ' where the record has it' : '';
  const needs = rule.movedBy === undefined ? `${rule.needs ?? 'may'}${recorded}` : `decided by the policy ${rule.movedBy}`;
  return [
    `${part} ${fact} (${needs}): ${how}${isMissing(survey, parts) ? '  <-- must be there' : ''}`,
    ...places.filter((place) => place.found > 0).map(placeLine),
    ...(found === 0 && !counts ? rule.sources.map((source) => `    looked for in ${sourceWords(source)}`) : []),
  ];
}

function placeLine({ source, isCopy, found, documents, values }: PlaceSurvey): string {
  const shown = values.map((value) => JSON.stringify(value)).join(', ');
  return `  ${isCopy ? 'again in' : 'in'} ${sourceWords(source)}: ${times(found)} in ${counted(documents, 'document')}, such as ${shown}`;
}

/** A place in words, as a library reads its own profile. */
function sourceWords(source: FactSource): string {
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
    case 'count':
      return `${source.in}${pattern}`;
    default:
      return `${source.in} ${source.path}${pattern}`;
  }
}

function fileLines(profile: Profile, written: WrittenReturn): readonly string[] {
  const uses = new Map<string, { named: number; came: number }>();
  const pages = written.issues.flatMap((issue) => issue.pages);
  for (const { files } of [...pages, ...written.reels.flatMap((reel) => reel.targets)]) {
    for (const file of files) {
      const use = uses.get(file.use) ?? { named: 0, came: 0 };
      uses.set(file.use, use);
      use.named += 1;
      if (file.state === 'present') use.came += 1;
    }
  }
  for (const use of Object.keys(profile.files.uses)) if (!uses.has(use)) uses.set(use, { named: 0, came: 0 });
  return [
    uses.size === 0 ? 'Files: no page names a file.' : 'Files by use:',
    ...[...uses.entries()].map(
      ([use, { named, came }]) =>
        `  ${use} (${profile.files.uses[use]?.needs ?? profile.files.otherUses}): named ${times(named)}, ${String(came)} of them in the batch`,
    ),
  ];
}

function problemLines({ problems }: WrittenReturn): readonly string[] {
  if (problems.length === 0) return [];
  const more = problems.length > 5 ? [`  and ${String(problems.length - 5)} more`] : [];
  return ['What was odd while reading:', ...problems.slice(0, 5).map((problem) => `  ${problem.says}`), ...more, ''];
}

function times(count: number): string {
  return count === 1 ? 'once' : `${String(count)} times`;
}

function counted(count: number, what: string): string {
  return `${String(count)} ${what}${count === 1 ? '' : 's'}`;
}
