import type { Policies } from '../model/agreement.js';
import type { ExpectedAbsence, ExpectedReturn, StatedFacts } from '../model/expected.js';
import type { Absence, Side } from '../model/film.js';
import { stated } from './fact.js';
import { expectReel } from './frames.js';
import { expectIssues } from './issues.js';

/** The return that would be right: the record under the agreement, in what the programme's XML can hold. Pure. */
export function expectedReturn(record: Side, policies: Policies, needs: StatedFacts): ExpectedReturn {
  return {
    reels: record.reels.map((reel) => expectReel(reel, policies, needs)),
    issues: expectIssues(record, policies, needs),
    absences: record.absences.map((absence) => expectAbsence(absence, policies)),
  };
}

/** What was not published need not be stated: nothing is wanting. */
function expectAbsence(absence: Absence, policies: Policies): ExpectedAbsence {
  const whole = absence.page === null && absence.order === null;
  const policy = whole ? policies.absentIssues : policies.absentPages;
  return {
    stated: policy === 'omitted' ? 'must-not' : policy === 'stated' && absence.published !== 'no' ? 'must' : 'may',
    published: absence.published === 'unknown' ? stated('may') : stated('must', { key: absence.published, text: absence.published }),
  };
}

/** The record with its editions numbered as the agreement has them numbered: what the return is aligned with. */
export function asOrdered(record: Side, expected: ExpectedReturn): Side {
  const issues = record.issues.map((issue, at) => {
    const [right] = expected.issues[at]?.edition.right ?? [];
    return right === undefined ? issue : { ...issue, edition: Number(right.key) };
  });
  return { ...record, issues };
}
