import { dayInWords } from '../../calendar/weekday-names.js';
import { inSeries } from '../../normalise/in-series.js';
import { about, grouped, issuesOn, type Placed, pagesInWords, type ReelView, type Shot, titleInWords } from './view.js';

/** Issues whose date is not the one that the paper prints, or not certain, or that stand for two days. */
export function dates(view: ReelView): readonly Placed[] {
  return issuesOn(view).flatMap(({ index, issue, own }): readonly Placed[] => {
    const { date, datePrinted, combinedWith } = issue;
    if (date === null) return [];
    const found: Placed[] = [];
    const fact = view.expected.issues[index]?.datePrinted;
    if (datePrinted !== null && datePrinted.text !== date.text) {
      const how =
        fact?.needs === 'must'
          ? 'give both dates'
          : fact?.needs === 'must-not'
            ? 'give the true date alone'
            : 'the printed date may be given beside it';
      const weekday = issue.weekdayPrinted === null ? '' : `${issue.weekdayPrinted}, `;
      const real = date.day === null ? date.text : `${date.day}, a ${dayInWords(date.day).split(' ')[0] ?? ''}`;
      found.push(about(view, 'misdated', own, `the paper prints “${weekday}${datePrinted.text}”; the issue is that of ${real}: ${how}.`));
    }
    if (date.uncertain)
      found.push(
        about(view, 'misdated', own, `the day is not certain; the record has ${date.text}: give the date that can be read, or this one.`),
      );
    if (combinedWith !== undefined)
      found.push(
        about(
          view,
          'two days',
          own,
          `one issue for two days, ${date.text} and ${combinedWith}: date it ${date.text}; the second day may be given with it.`,
        ),
      );
    return found;
  });
}

/** Issues on which another title is printed than theirs. */
export function printedTitles(view: ReelView): readonly Placed[] {
  const nameOf = (id: string | null): string | undefined => view.side.titles.find((title) => title.id === id)?.name;
  const own = issuesOn(view).flatMap(({ issue, own: shots }) => {
    const printed = shots.map(({ entry }) => entry.titlePrinted).find((text) => text !== undefined);
    return printed === undefined || printed === nameOf(issue.title) ? [] : [{ printed, title: issue.title, shots }];
  });
  return grouped(own, ({ printed, title }) => JSON.stringify([printed, title])).map(([, list]) => {
    const [first] = list;
    const says = `the paper prints the title “${first?.printed ?? ''}”: give the title ${titleInWords(view, first?.title ?? null)}.`;
    return about(
      view,
      'title',
      list.flatMap(({ shots }) => shots),
      says,
    );
  });
}

/** Issues that are a further edition of their day, or are counted otherwise than they came out. */
export function editions(view: ReelView): readonly Placed[] {
  const on = issuesOn(view);
  return on.flatMap(({ index, issue, own }): readonly Placed[] => {
    const right = view.expected.issues[index]?.edition.right[0]?.text ?? '1';
    const mine = String(issue.edition ?? 1);
    if (right === '1' && mine === '1') return [];
    const label = issue.editionLabel === null ? '' : ` (“${issue.editionLabel}”)`;
    const sameDay = on.filter(
      (one) => one.issue.title === issue.title && one.issue.date?.day != null && one.issue.date.day === issue.date?.day,
    );
    const later = sameDay.filter((one) => (one.issue.edition ?? 1) < (issue.edition ?? 1) && (one.own[0]?.at ?? 0) > (own[0]?.at ?? 0));
    const order = later.length === 0 ? '' : `, filmed before edition ${inSeries(later.map((one) => String(one.issue.edition ?? 1)))}`;
    return [about(view, 'edition', own, `edition ${mine} of that day${label}${order}: send it as an issue of its own, edition ${right}.`)];
  });
}

/** Issues whose printed number is not the one that was meant. */
export function issueNumbers(view: ReelView): readonly Placed[] {
  return issuesOn(view).flatMap(({ issue, own }) => {
    const { issueNumber, issueNumberIntended } = issue;
    if (issueNumberIntended === null || issueNumber === null || issueNumber === issueNumberIntended) return [];
    return [
      about(
        view,
        'numbering',
        own,
        `the issue is numbered ${issueNumber}, which should be ${issueNumberIntended}: give ${issueNumber}, as printed.`,
      ),
    ];
  });
}

/** Issues of which pages lie on another reel too. */
export function overReels(view: ReelView): readonly Placed[] {
  return issuesOn(view).flatMap(({ index, own }): readonly Placed[] => {
    const here = own.filter(({ frame }) => frame.deliver);
    const there = (view.shotsOfIssue.get(index) ?? []).filter(({ frame, reel }) => frame.deliver && reel !== view.at);
    if (here.length === 0 || there.length === 0) return [];
    const parts = grouped(there, ({ reel }) => String(reel)).map(
      ([reel, shots]) => `${pagesOf(shots)} on reel ${view.record.reels[Number(reel)]?.number ?? ''}`,
    );
    return [about(view, 'two reels', here, `${pagesOf(here)} of an issue that has ${inSeries(parts)}: one issue, not two.`)];
  });
}

function pagesOf(shots: readonly Shot[]): string {
  return pagesInWords(shots.map(({ entry }) => entry.page));
}
