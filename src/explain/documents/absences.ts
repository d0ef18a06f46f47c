import { daysBetween } from '../../calendar/civil.js';
import type { Absence, Issue, Side } from '../../model/film.js';
import { type Candidate, candidate } from '../choose.js';
import { capital, counted, draft, type FindingDraft, inSeries } from '../draft.js';
import { sidedBy } from '../facts/sided.js';
import { movedBy } from '../film/moved-pages.js';
import { idsOf } from '../runs.js';
import { fieldOf, recordFrame, reelInWords, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { freePlace } from './free-place.js';

/** Statements of absence that one side lacks or makes wrongly; whole issues missing over a run of days are one finding. */
export function absences(scene: Scene): Candidate[] {
  return [
    ...statedElsewhere(scene),
    ...runs(scene, fieldOf(scene, 'absence-missing'), scene.record).map((run) => notStated(scene, run)),
    ...runs(scene, fieldOf(scene, 'absence-extra'), scene.returned).map((run) => statedWrongly(scene, run)),
    ...publishedThroughout(scene, runs(scene, fieldOf(scene, 'absence-published'), scene.record)).map((list) =>
      publishedWrongly(scene, list),
    ),
  ];
}

interface Stated {
  readonly difference: WordedDifference;
  readonly absence: Absence;
}

/** Runs of whole issues of one title, and of pages of one issue. */
function runs(scene: Scene, differences: readonly WordedDifference[], side: Side): Stated[][] {
  const list = differences
    .flatMap((difference): Stated[] => {
      // where both sides state it, and do not say the same of it, it is told as the record has it
      const at = difference.field === 'absence-published' ? difference.otherAbsence : difference.absence;
      const absence = at === null ? undefined : side.absences[at];
      return absence === undefined ? [] : [{ difference, absence }];
    })
    .sort((a, b) => (key(a.absence) < key(b.absence) ? -1 : key(a.absence) > key(b.absence) ? 1 : a.difference.id - b.difference.id));
  const result: Stated[][] = [];
  for (const item of list) {
    const run = result.at(-1);
    const last = run?.at(-1);
    if (run !== undefined && last !== undefined && continues(scene, last.absence, item.absence)) run.push(item);
    else result.push([item]);
  }
  return result;
}

function key(absence: Absence): string {
  return [
    absence.title ?? '',
    absence.page === null && absence.order === null ? '0' : '1',
    absence.date?.day ?? absence.date?.text ?? '',
    absence.edition ?? 1,
  ].join('|');
}

function continues(scene: Scene, a: Absence, b: Absence): boolean {
  if (a.title !== b.title) return false;
  const whole = (absence: Absence): boolean => absence.page === null && absence.order === null;
  if (whole(a) !== whole(b)) return false;
  if (!whole(a)) return a.date?.text === b.date?.text && (a.edition ?? 1) === (b.edition ?? 1);
  const from = a.date?.day ?? null;
  const to = b.date?.day ?? null;
  if (from === null || to === null) return false;
  // no issue of the title lies on the film between the two days
  const between = scene.record.issues.some(
    (issue) => issue.title === a.title && issue.present && issue.date?.day != null && issue.date.day > from && issue.date.day < to,
  );
  return !between && daysBetween(from, to) <= 31;
}

function words(run: readonly Stated[], scene: Scene): { what: string; dates: string } {
  const first = run[0]?.absence;
  const last = run.at(-1)?.absence;
  const name = scene.record.titles.find((title) => title.id === first?.title)?.name ?? first?.title ?? 'the title';
  const whole = first?.page === null && first.order === null;
  const from = first?.date?.text ?? 'an unknown date';
  const to = last?.date?.text ?? from;
  const edition = (first?.edition ?? 1) > 1 ? `, edition ${String(first?.edition)}` : '';
  if (!whole) {
    const labels = run.map(({ absence }) => absence.page ?? `number ${String(absence.order ?? '?')}`);
    return { what: `${labels.length === 1 ? 'page' : 'pages'} ${labels.join(', ')} of ${name} of ${from}${edition}`, dates: from };
  }
  return run.length === 1
    ? { what: `the issue of ${name} of ${from}${edition}`, dates: from }
    : { what: `${counted(run.length, 'issue')} of ${name} from ${from} to ${to}`, dates: `${from} to ${to}` };
}

function base(
  scene: Scene,
  run: readonly Stated[],
): Omit<Partial<FindingDraft>, 'code'> & { about: []; explains: number[]; recordIssue: number | null; returnIssue: number | null } {
  const first = run[0];
  return {
    about: [],
    explains: idsOf(run.map((item) => item.difference)),
    recordIssue: first?.difference.recordIssue ?? null,
    returnIssue: first?.difference.returnIssue ?? null,
    reel: reelInWords(scene, first?.absence.reel ?? null),
    at: null,
    frames: null,
    count: run.length,
    title: first?.absence.title ?? null,
    date: first?.absence.date?.text ?? null,
    edition: first?.absence.edition ?? 1,
    page: run.length === 1 ? (first?.absence.page ?? null) : null,
    field: 'absence',
    collation: first?.difference.collation ?? null,
    return: first?.difference.returned ?? null,
    places: first === undefined ? [] : [first.absence.place],
  };
}

function notStated(scene: Scene, run: readonly Stated[]): Candidate {
  const { what } = words(run, scene);
  const called = run[0]?.difference.returned?.startsWith('present') === true;
  const published =
    run[0]?.absence.published === 'yes'
      ? 'published, but not on the film'
      : 'not on the film, and it is not known whether it was published';
  return candidate(
    draft(scene, {
      ...base(scene, run),
      code: 'absence-not-stated',
      cause: 'vendor-metadata',
      explains: [...idsOf(run.map((item) => item.difference)), ...closedUp(scene, run)],
      says: `${capital(what)} ${run.length === 1 ? 'is' : 'are'} not on the film, and the return ${called ? `says ${run.length === 1 ? 'it is' : 'they are'} present, without a page` : 'does not say so'}.`,
      instruction: `State ${what} as absent (${published}).`,
    }),
  );
}

/** Places of the later pages of the issue that were moved up into the place of the pages that are wanting. */
function closedUp(scene: Scene, run: readonly Stated[]): number[] {
  const orders = run.flatMap(({ absence }) => absence.order ?? []);
  const issue = run[0]?.absence.issue ?? null;
  if (issue === null || orders.length !== run.length) return [];
  const last = Math.max(...orders);
  const later = (scene.pairsOfRecordIssue.get(issue) ?? []).filter((ref) => (recordFrame(scene, ref)?.order ?? 0) > last);
  return idsOf(movedBy(scene, later, -run.length).filter((difference) => difference.field === 'order'));
}

function statedWrongly(scene: Scene, run: readonly Stated[]): Candidate {
  const { what } = words(run, scene);
  const { cause, evidence } = freePlace(
    scene,
    run.map(({ absence }) => absence),
  );
  return candidate(
    sidedBy(
      cause,
      what,
      draft(scene, {
        ...base(scene, run),
        code: 'absence-stated-wrongly',
        cause: 'vendor-metadata',
        says: `The return states ${what} as absent; the record knows no such gap.`,
        instruction: `Take back the statement that ${what} ${run.length === 1 && !what.startsWith('pages') ? 'is' : 'are'} absent.`,
        evidence: [...(cause === 'vendor-metadata' ? [] : evidence), ...numberingAcross(scene, run)],
      }),
      'the film',
    ),
  );
}

/** What is not on the film and is stated, but of another issue: the same page of one beside, or an issue under another day or edition. */
function statedElsewhere(scene: Scene): Candidate[] {
  const missing = runs(scene, fieldOf(scene, 'absence-missing'), scene.record);
  const extra = runs(scene, fieldOf(scene, 'absence-extra'), scene.returned);
  const taken = new Set<readonly Stated[]>();
  return extra.flatMap((wrong) => {
    const right = missing.find((one) => !taken.has(one) && isSameBut(one, wrong));
    if (right === undefined) return [];
    taken.add(right);
    const [{ what }, { what: stated }] = [words(right, scene), words(wrong, scene)];
    const { cause, evidence } = freePlace(
      scene,
      wrong.map(({ absence }) => absence),
    );
    const hole = cause === 'collation';
    return [
      candidate(
        draft(scene, {
          ...base(scene, wrong),
          code: 'absence-stated-wrongly',
          cause: hole ? 'collation' : 'vendor-metadata',
          explains: idsOf([...right, ...wrong].map(({ difference }) => difference)),
          collation: what,
          return: stated,
          says: `The return states ${stated} as absent, where the record has ${what}.`,
          instruction: hole
            ? `Compare the film at ${what} and at ${stated} with both readings before anything is changed.`
            : `State ${what} as absent, and take back the statement about ${stated}.`,
          evidence: hole ? evidence : [],
        }),
      ),
    ];
  });
}

/** Whether two runs of absences are the same but for the issue: the same pages of one title, or as many issues of it under another day or edition, not both. */
function isSameBut(right: readonly Stated[], wrong: readonly Stated[]): boolean {
  return (
    right.length === wrong.length &&
    right.every(({ absence }, at) => {
      const other = wrong[at]?.absence;
      if (other === undefined || absence.title !== other.title || absence.page?.toUpperCase() !== other.page?.toUpperCase()) return false;
      const isPage = absence.page !== null || absence.order !== null;
      const [day, edition] = [absence.date?.text === other.date?.text, (absence.edition ?? 1) === (other.edition ?? 1)];
      return isPage ? absence.page !== null || absence.order === other.order : day !== edition;
    })
  );
}

/** All runs as one where every absence that both sides state is stated wrongly, and in the same way. */
function publishedThroughout(scene: Scene, list: readonly Stated[][]): readonly (readonly Stated[][])[] {
  const wrong = list.flat().map(({ difference }) => `${difference.returned ?? ''} ${difference.collation ?? ''}`);
  const known = scene.expected.absences.filter(({ published }) => published.needs === 'must').length;
  const onBoth = known - fieldOf(scene, 'absence-missing').length;
  return wrong.length > 1 && wrong.length === onBoth && new Set(wrong).size === 1 ? [list] : list.map((run) => [run]);
}

function publishedWrongly(scene: Scene, list: readonly Stated[][]): Candidate {
  const all = list.flat();
  const what = inSeries(list.map((run) => words(run, scene).what));
  const first = all[0]?.difference;
  const shown = list.map((run) => shownPublished(scene, run));
  const published = new Set(shown.flatMap((one) => one.published ?? []));
  const own = all[0]?.absence.published;
  const cause = published.size !== 1 ? 'unclear' : own !== undefined && published.has(own) ? 'vendor-metadata' : 'collation';
  return candidate(
    sidedBy(
      cause,
      `the pages beside ${what}`,
      draft(scene, {
        ...base(scene, all),
        code: 'absence-stated-wrongly',
        cause: 'vendor-metadata',
        says: `${capital(what)} ${all.length === 1 ? 'is' : 'are'} absent on both sides, but the return says "${first?.returned ?? '?'}" and the record "${first?.collation ?? '?'}".`,
        instruction: `State ${what} as absent, ${first?.collation ?? '?'}.`,
        evidence: [...new Set(shown.flatMap(({ evidence }) => evidence))],
      }),
      'the film',
    ),
  );
}

/** Whether what is not on the film was published, as far as the film around it shows: by the numbers of the issues beside, or by a page behind it. */
function shownPublished(scene: Scene, run: readonly Stated[]): { published: Absence['published'] | null; evidence: readonly string[] } {
  const first = run[0]?.absence;
  if (first === undefined) return { published: null, evidence: [] };
  if (first.page === null && first.order === null) {
    const [low, high] = numbersAround(scene, run).map((issue) => Number(issue?.issueNumber ?? Number.NaN));
    const between = (high ?? Number.NaN) - (low ?? Number.NaN) - 1;
    return { published: between === 0 ? 'no' : between === run.length ? 'yes' : null, evidence: numberingAcross(scene, run) };
  }
  const orders = (scene.pairsOfRecordIssue.get(first.issue ?? -1) ?? []).map((ref) => recordFrame(scene, ref)?.order ?? 0);
  const behind = run.every(({ absence }) => absence.order !== null && orders.some((order) => order > (absence.order ?? 0)));
  return behind ? { published: 'yes', evidence: ['A later page of the issue is on the film.'] } : { published: null, evidence: [] };
}

/** The issues of the title before and behind the days that are said to be absent. */
function numbersAround(scene: Scene, run: readonly Stated[]): readonly (Issue | undefined)[] {
  const [from, to] = [run[0]?.absence.date?.day, run.at(-1)?.absence.date?.day];
  if (from == null || to == null) return [];
  const title = run[0]?.absence.title;
  const issues = scene.record.issues.filter((issue) => issue.title === title && issue.present && issue.date?.day != null);
  return [issues.filter((issue) => (issue.date?.day ?? '') < from).at(-1), issues.find((issue) => (issue.date?.day ?? '') > to)];
}

/** Whether the issue numbers run on across the days said to be absent. */
function numberingAcross(scene: Scene, run: readonly Stated[]): string[] {
  const [before, after] = numbersAround(scene, run);
  const low = Number(before?.issueNumber ?? Number.NaN);
  const high = Number(after?.issueNumber ?? Number.NaN);
  if (!Number.isInteger(low) || !Number.isInteger(high)) return [];
  if (high === low + 1)
    return [
      `Number ${String(low)} of ${before?.date?.text ?? ''} is followed by ${String(high)} of ${after?.date?.text ?? ''}: no issue is missing between them.`,
    ];
  return [
    `Between ${before?.date?.text ?? ''} (number ${String(low)}) and ${after?.date?.text ?? ''} (number ${String(high)}) ${high - low === 2 ? '1 number is' : `${counted(high - low - 1, 'number')} are`} not on the film.`,
  ];
}
