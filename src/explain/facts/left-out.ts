import type { FindingCode } from '../../catalogue/codes.js';
import { capital, counted, draft, type FindingDraft, framesByName, framesInWords, issueName, rangeOf } from '../draft.js';
import { groupBy, inFilmOrder } from '../runs.js';
import { recordFrame, type Scene } from '../scene.js';
import { type FactEdit, reachName } from './lift.js';
import { bearer, FACT_NAMES, fieldName } from './names.js';
import { isNotOnEveryPaper, isOfIssue } from './statements.js';

/** A fact that must be stated and is left out of a whole reel, title or return. */
export function leftOutWidely(scene: Scene, edit: FactEdit, explains: readonly number[]): FindingDraft {
  const { fact, places, could } = edit;
  const { one, code, give } = FACT_NAMES[fact];
  const what = bearer(fact);
  const scope = reachName(scene, edit);
  const whole = places.length === could;
  return draft(scene, {
    code: leftOutCode(fact, code),
    cause: 'vendor-metadata',
    about: inFilmOrder(places.flatMap(({ refs }) => refs)),
    explains,
    title: null,
    date: null,
    edition: null,
    page: null,
    field: fieldName(fact),
    collation: `${counted(could, what)} with one`,
    return: whole ? 'none' : `${String(could - places.length)} with one`,
    says: whole
      ? `No ${what} of ${scope} gives its ${one}: ${counted(places.length, what)}.`
      : `${String(places.length)} of ${counted(could, what)} of ${scope} give no ${one}.`,
    instruction: atTheFilm(fact, `give every ${what} of ${scope} ${give}.`),
  });
}

function leftOutCode(fact: FactEdit['fact'], code: FindingCode): FindingCode {
  return fact === 'datePrinted' ? 'printed-date-not-given' : fact === 'section' ? 'sections-flattened' : code;
}

/** One issue that leaves a fact out, the pages of one that do, or a run of either. */
export function leftOutHere(scene: Scene, edit: FactEdit, explains: readonly number[]): FindingDraft {
  const { fact, places } = edit;
  if (fact === 'section') return sectionsLost(scene, edit, explains);
  const { one, many: plural, code, give } = FACT_NAMES[fact];
  const refs = inFilmOrder(places.flatMap((place) => place.refs));
  const range = rangeOf(scene, refs);
  const words = framesInWords(range.frames);
  const issue = places[0]?.issue ?? null;
  const issues = groupBy(places, (place) => place.issue).size;
  const differences = places.flatMap(({ differs }) => differs ?? []);
  const readings = differences.map(({ collation }) => collation ?? '?').join(', ');
  const alone = places.length === 1;
  const ofIssue = isOfIssue(fact);
  const name = issues > 1 ? counted(issues, 'issue') : issueName(scene, issue);
  const page = alone && !ofIssue && refs[0] !== undefined ? recordFrame(scene, refs[0])?.page : null;
  const who = ofIssue ? `${name} (${words})` : `${capital(words)}${page == null ? '' : `, page ${page}`} of ${name}`;
  const verb = (ofIssue && issues === 1) || alone ? 'gives' : 'give';
  const certain = places.every(({ right }) => right.length > 0);
  return draft(scene, {
    code: leftOutCode(fact, code),
    cause: 'vendor-metadata',
    about: refs,
    recordIssue: issue,
    returnIssue: places[0]?.document ?? null,
    explains,
    field: fieldName(fact),
    collation: readings,
    return: 'not given',
    says:
      fact === 'datePrinted' && alone
        ? `The paper of ${name} (${words}) prints ${readings}, and the return does not give that date.`
        : `${who} ${verb} no ${one}; the record has ${readings}.`,
    instruction: isNotOnEveryPaper(fact)
      ? `Look at the film on ${certain ? framesByName(range.frames) : words} and give ${alone ? give.replace(/on it$/, 'there') : `each ${bearer(fact)} ${give}`}${certain ? `; the record has ${readings}` : ''}.`
      : certain
        ? `Give ${readings} as the ${alone ? one : plural} for ${framesByName(range.frames)}.`
        : `Give ${give} for ${words}.`,
  });
}

/** What a record may have given that no paper has is looked at before it is given. */
function atTheFilm(fact: FactEdit['fact'], instruction: string): string {
  return isNotOnEveryPaper(fact) ? `Look at the film and ${instruction}` : capital(instruction);
}

/** Sections that the pages of an issue lost, mostly counted through. */
function sectionsLost(scene: Scene, { places }: FactEdit, explains: readonly number[]): FindingDraft {
  const refs = inFilmOrder(places.flatMap((place) => place.refs));
  const words = framesInWords(rangeOf(scene, refs).frames);
  const sections = [...new Set(places.map(({ right }) => right[0]?.text ?? '?'))];
  const labels = explains.length > places.length;
  const one = sections.length === 1;
  const issue = places[0]?.issue ?? null;
  const issues = groupBy(places, (place) => place.issue).size;
  return draft(scene, {
    code: 'sections-flattened',
    cause: 'vendor-metadata',
    about: refs,
    recordIssue: issue,
    explains,
    field: 'section',
    collation: `sections ${sections.join(', ')}`,
    return: 'no sections',
    says: `The ${one ? `section ${sections.join('')}` : `sections (${sections.join(', ')})`} of ${issues > 1 ? counted(issues, 'issue') : issueName(scene, issue)} ${one ? 'is' : 'are'} lost on ${words}: the pages came without ${one ? 'it' : 'them'}${labels ? ', their labels changed' : ''}.`,
    instruction: `Look at the film on ${words} and give ${places.length > 1 ? 'these pages their' : 'the page its'} section${labels ? ' and the labels' : ''} as the paper has ${places.length > 1 || labels ? 'them' : 'it'}; the record has ${sections.join(', ')}.`,
  });
}
