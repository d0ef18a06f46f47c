import { type Candidate, candidate } from '../choose.js';
import { counted, draft, framesInWords, inSeries, issueName, rangeOf } from '../draft.js';
import { sidedBy } from '../facts/sided.js';
import { spansAlong } from '../facts/span-along.js';
import { groupBy, idsOf } from '../runs.js';
import { factsOf, fieldOf, recordIssueOf, returnIssueOf, type Scene } from '../scene.js';
import { homesTestimony } from './homes.js';
import { copiesOf } from './issue-copies.js';
import { consequences, deliveredMeetings, type Meeting } from './issue-documents.js';

/** So many documents with dates of their own are no issue that was split by mistake, page by page. */
const SEVERAL = 3;

/**
 * Several documents, each with a date of its own, for what the record has as one issue: one date stands in it for all of them, as where a cell
 * was copied down a column. The record's numbers and volumes are those of the first, then, and what is stated as absent lies between them.
 */
export function parted(scene: Scene): Candidate[] {
  const met = deliveredMeetings(scene);
  return [...groupBy(met, ({ recordIssue }) => recordIssue)].flatMap(([recordIssue, meetings]) => {
    const dates = meetings.map(({ returnIssue }) => returnIssueOf(scene, returnIssue)?.date?.text);
    // where documents are filed by reel an issue on two of them has two, of one day
    const onReels = new Set(meetings.map(({ pairs }, at) => `${dates[at] ?? ''} ${String(pairs[0]?.alignment)}`));
    if (new Set(dates).size < SEVERAL || onReels.size < meetings.length || dates.includes(undefined)) return [];
    const alone = meetings.every(({ returnIssue }) => met.filter((other) => other.returnIssue === returnIssue).length === 1);
    return alone ? [told(scene, recordIssue, meetings)] : [];
  });
}

function told(scene: Scene, recordIssue: number, meetings: readonly Meeting[]): Candidate {
  const documents = meetings.map(({ returnIssue }) => returnIssue);
  const dates = [...new Set(documents.map((document) => returnIssueOf(scene, document)?.date?.text ?? '?'))];
  const about = meetings.flatMap(({ pairs }) => pairs);
  const words = framesInWords(rangeOf(scene, about).frames);
  const { cause, evidence } = homesTestimony(scene, [recordIssue], documents);
  const name = issueName(scene, recordIssue);
  const right = recordIssueOf(scene, recordIssue)?.date?.text ?? '?';
  return candidate(
    sidedBy(
      cause,
      words,
      draft(scene, {
        code: 'date-differs',
        cause: 'vendor-metadata',
        evidence,
        about,
        recordIssue,
        explains: [
          ...meetings.flatMap((meeting) => ofMeeting(scene, meeting)),
          ...absencesBetween(scene, recordIssue, dates),
          ...spansAlong(scene, new Set(about.map(({ alignment }) => alignment))),
        ],
        field: 'date',
        collation: right,
        return: inSeries(dates),
        says: `The record has one issue on ${words}, ${name}; it came as ${counted(dates.length, 'issue')}, dated ${inSeries(dates)}.`,
        instruction: `Join the ${counted(documents.length, 'document')} of ${words} to one issue of ${right}, pages in one order.`,
      }),
    ),
  );
}

function ofMeeting(scene: Scene, meeting: Meeting): readonly number[] {
  const { recordIssue, returnIssue } = meeting;
  const surplus = fieldOf(scene, 'extra-document').filter((one) => one.returnIssue === returnIssue && one.recordIssue === recordIssue);
  return [
    ...idsOf([...surplus, ...factsOf(scene, recordIssue, returnIssue)]),
    ...consequences(scene, meeting),
    ...copiesOf(scene, returnIssue),
  ];
}

/** Issues of the title that the return states as absent between the first of these dates and the last, and those that the record has under the one date. */
function absencesBetween(scene: Scene, recordIssue: number, dates: readonly string[]): readonly number[] {
  const { title, date } = recordIssueOf(scene, recordIssue) ?? {};
  const [first = '', last = ''] = [dates.toSorted()[0], dates.toSorted().at(-1)];
  const extra = fieldOf(scene, 'absence-extra').filter(({ absence }) => {
    const stated = scene.returned.absences[absence ?? -1];
    const day = stated?.date?.text ?? '';
    return stated !== undefined && stated.title === title && day >= first && day <= last;
  });
  const unstated = fieldOf(scene, 'absence-missing').filter(({ absence }) => {
    const own = scene.record.absences[absence ?? -1];
    return own !== undefined && own.title === title && own.date?.text === date?.text;
  });
  return idsOf([...extra, ...unstated]);
}
