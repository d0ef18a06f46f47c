import { basename } from 'node:path';
import type { DocumentPart, Profile } from '../model/profile.js';
import type { WrittenFacts, WrittenReturn } from '../model/written-return.js';
import { examples, sourceWords, wayToRead } from '../normalise/profile-words.js';
import { normaliseReturn } from '../normalise/return.js';
import { isReadable, readPresent } from '../normalise/return-facts.js';
import { NAMED_PROFILES } from '../profiles/index.js';
import { WHERE_RECORDED } from '../read/facts/part-facts.js';
import { type FactSurvey, newSurvey, type PlaceSurvey } from '../read/facts/survey.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { readReturn } from '../read/return.js';
import { chosenProfiles, noSuchProfile } from './inputs/chosen-profiles.js';

/** A built-in profile as a library's own profile that starts from nothing: complete, to be changed. Throws UserMistake. */
export function shownProfile(name: string): object {
  const profile = NAMED_PROFILES.find((candidate) => candidate.name === name);
  if (profile === undefined) throw new UserMistake(`profile show prints built-in profiles: ${noSuchProfile(name)}`);
  const { format, name: own, ...rest } = profile;
  return { format, name: own, startsFrom: 'nothing', ...rest };
}

/** What a profile found where in a return, line by line, and whether everything that must be there was found and can be read. Throws UserMistake. */
export async function triedProfile(
  wish: string,
  batch: readonly string[],
): Promise<{ readonly lines: readonly string[]; readonly found: boolean }> {
  const [chosen] = await chosenProfiles(wish, async (path) => (await readJsonFile(path, 'profile')).value);
  if (chosen === undefined) throw new UserMistake(noSuchProfile(wish));
  // What is tried may be wrong, whoever wrote it.
  const profile: Profile = { ...chosen, own: true };
  const survey = newSurvey(profile);
  const read = await readReturn(batch, { profiles: [profile], readText: false, onFact: survey.seen });
  if (!read.ok) throw new UserMistake(read.says);
  const { written } = read;
  const parts = partsOf(written, profile);
  const facts = survey.facts().map((fact) => tried(fact, parts[fact.part], profile));
  const questions = [
    ...written.unchecked.filter(({ required }) => required),
    ...(normaliseReturn(written, profile).unfound ?? []).flatMap(({ field, unchecked }) => (field === 'pages' ? unchecked : [])),
  ];
  const wrong = [...facts.flatMap(wrongWords), ...questions.map(({ what }) => `${what}: see above`)];
  const lines = [
    `The profile "${profile.name}" read the batch "${basename(written.batch)}".`,
    '',
    ...documentLines(profile, written),
    '',
    ...partLines(parts),
    '',
    ...facts.filter(({ part }) => parts[part].length > 0).flatMap((fact) => factLines(fact, profile)),
    '',
    ...fileLines(profile, written),
    '',
    ...problemLines(written),
    ...(questions.length === 0 ? [] : ['What is wanting:', ...questions.map(({ what, why }) => `  ${what}: ${why}`), '']),
    wrong.length === 0 ? 'Everything that must be there was found.' : `Not as the profile says: ${wrong.join('; ')}.`,
  ];
  return { lines, found: wrong.length === 0 };
}

type Parts = Readonly<Record<DocumentPart, readonly WrittenFacts[]>>;

/** The facts of every part; pages that are said to be missing state little, and are left out. */
function partsOf({ issues, reels }: WrittenReturn, profile: Profile): Parts {
  const isThere = (present: string | undefined): boolean =>
    present === undefined || readPresent(present, profile.present)?.present !== false;
  const pages = issues.flatMap((issue) => issue.pages.map(({ facts }) => facts)).filter(({ present }) => isThere(present));
  return {
    issue: issues.map(({ facts }) => facts),
    section: pages.filter(({ section }) => section !== undefined),
    page: pages,
    target: reels.flatMap((reel) => reel.targets.map(({ facts }) => facts)),
    scannerTarget: [],
    reel: reels.map(({ facts }) => facts),
  };
}

/** A fact as it was found in the parts that are there. */
interface TriedFact extends FactSurvey {
  readonly parts: number;
  /** Texts that stand there and cannot be understood. */
  readonly unread: readonly string[];
}

function tried(survey: FactSurvey, parts: readonly WrittenFacts[], profile: Profile): TriedFact {
  const texts = parts.flatMap((facts) => facts[survey.fact] ?? []);
  return { ...survey, parts: parts.length, found: texts.length, unread: texts.filter((text) => !isReadable(survey.fact, text, profile)) };
}

/** A fact that every part must state and does not, or that not one states. */
function isMissing({ fact, rule, found, parts }: TriedFact): boolean {
  if (rule.needs !== 'must' || rule.movedBy !== undefined) return false;
  return WHERE_RECORDED.has(fact) ? found === 0 && parts > 0 : found < parts;
}

function wrongWords(tried: TriedFact): readonly string[] {
  const { part, fact, rule, found, unread } = tried;
  const name = `${part} ${fact}`;
  return [
    ...(isMissing(tried) ? [`${name} must be stated and ${found === 0 ? 'was not found' : `was found ${times(found)} only`}`] : []),
    ...(unread.length > 0
      ? [
          `${name} was found ${times(found)} and cannot be read ${found === unread.length ? '' : `${times(unread.length)} of these `}(${examples(unread)})`,
        ]
      : []),
    ...(rule.needs === 'must-not' && found > 0 ? [`${name} must not be stated and was found ${times(found)}`] : []),
  ];
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
  const count = ({ length }: { readonly length: number }, what: string): string => counted(length, what);
  return [
    `Parts: ${count(parts.issue, 'issue')}, ${count(parts.page, 'page')}, ${count(parts.target, 'target')}, ${count(parts.reel, 'reel')}.`,
  ];
}

function factLines(fact: TriedFact, profile: Profile): readonly string[] {
  const { part, rule, found, parts, places, unread } = fact;
  const counts = rule.sources.some((source) => typeof source !== 'string' && source.in === 'count');
  const how =
    found === 0 && counts
      ? `counted on for ${counted(parts, part)}`
      : found === 0
        ? 'not found'
        : `found for ${String(found)} of ${counted(parts, part)}`;
  const recorded = rule.needs === 'must' && WHERE_RECORDED.has(fact.fact) ? ' where the record has it' : '';
  const needs = rule.movedBy === undefined ? `${rule.needs ?? 'may'}${recorded}` : `decided by the policy ${rule.movedBy}`;
  const bad = unread.length === 0 ? '' : `, ${String(unread.length)} of them cannot be read`;
  return [
    `${part} ${fact.fact} (${needs}): ${how}${bad}${isMissing(fact) ? '  <-- must be there' : unread.length > 0 ? '  <-- must be readable' : ''}`,
    ...places.filter((place) => place.found > 0).map(placeLine),
    ...(unread.length === 0 ? [] : [`    cannot be read: ${examples(unread)}.${wayToRead(fact.fact, unread, profile)}`]),
    ...(found === 0 && !counts ? rule.sources.map((source) => `    looked for in ${sourceWords(source)}`) : []),
    ...places
      .filter((place) => place.isCopy && place.found === 0)
      .map(({ source }) => `    again looked for in ${sourceWords(source)}, and not found`),
  ];
}

function placeLine({ source, isCopy, found, documents, values }: PlaceSurvey): string {
  const shown = values.map((value) => JSON.stringify(value)).join(', ');
  return `  ${isCopy ? 'again in' : 'in'} ${sourceWords(source)}: ${times(found)} in ${counted(documents, 'document')}, such as ${shown}`;
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
  const isWanting = (use: string, named: number): boolean => profile.files.uses[use]?.needs === 'must' && named === 0;
  return [
    uses.size === 0 ? 'Files: no page names a file.' : 'Files by use:',
    ...[...uses.entries()].map(
      ([use, { named, came }]) =>
        `  ${use} (${profile.files.uses[use]?.needs ?? profile.files.otherUses}): ${named === 0 ? 'no page names one' : `named ${times(named)}, ${String(came)} of them in the batch`}${isWanting(use, named) ? '  <-- must be there' : ''}`,
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
