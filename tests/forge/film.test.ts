import { describe, expect, it } from 'vitest';
import { readFrameNumber } from '../../src/normalise/labels.js';
import { sideOfPlan, sideOfRecord } from '../support/sides.js';
import { dateOf, dayNumber, isDay, weekdayOf } from './film/days.js';
import { makeFilm } from './film/make-film.js';
import { weekdayWord } from './film/names.js';
import { ODDITIES } from './film/publish.js';
import { planOf } from './plan.js';
import { recordOf } from './record/record-of.js';

const seeds = Array.from({ length: 200 }, (_, i) => i + 1);
const films = seeds.map((seed) => makeFilm({ seed }));

describe('days', () => {
  // Weekdays tabulated in public calendar tables (Burkardt's weekday test values; perpetual calendar of the 1776-07-04 Thursday).
  it.each([
    ['1648-06-10', 'wed'],
    ['1776-07-04', 'thu'],
    ['1819-08-02', 'mon'],
    ['1839-03-27', 'wed'],
    ['1903-04-19', 'sun'],
    ['1929-08-25', 'sun'],
    ['1900-02-28', 'wed'],
    ['1900-03-01', 'thu'],
    ['1904-02-29', 'mon'],
  ])('%s was a %s', (date, weekday) => {
    expect(weekdayOf(date)).toBe(weekday);
  });

  it('counts every day from 1799 to 1961 once and refuses days that never were', () => {
    let previous = '';
    for (let day = dayNumber('1799-01-01'); day <= dayNumber('1961-12-31'); day += 1) {
      const date = dateOf(day);
      expect(dayNumber(date)).toBe(day);
      expect(date > previous).toBe(true);
      previous = date;
    }
    expect(['1900-02-29', '1899-02-29', '1897-13-01', '1898-04-31'].filter(isDay)).toEqual([]);
    // 1904 is a leap year (rule of the Gregorian calendar, bull Inter gravissimas, 1582).
    expect(isDay('1904-02-29')).toBe(true);
  });
});

describe('the invented film', () => {
  it('is the same for the same seed and another for another', () => {
    expect(JSON.stringify(makeFilm({ seed: 7 }))).toBe(JSON.stringify(makeFilm({ seed: 7 })));
    expect(new Set(films.map((film) => JSON.stringify(film))).size).toBe(seeds.length);
  });

  it('numbers its frames from 1 without holes, halves A before B', () => {
    for (const film of films) {
      for (const reel of film.reels) {
        let exposure = 0;
        let half = '';
        for (const shot of reel.shots) {
          if (shot.half === 'B') expect([half, shot.exposure]).toEqual(['A', exposure]);
          else expect(shot.exposure).toBe(exposure + 1);
          ({ exposure, half } = shot);
          expect(readFrameNumber(shot.frame)).toMatchObject({ exposure, half });
        }
      }
    }
  });

  it('delivers or declares wanting every page of every issue on film exactly once', () => {
    for (const film of films) {
      film.issues.forEach((issue, index) => {
        const orders = film.reels.flatMap((reel) =>
          reel.shots.filter((shot) => shot.issue === index && shot.deliver).map((shot) => shot.order),
        );
        const all = [...orders, ...issue.wanting.map((page) => page.order)].sort((a, b) => (a ?? 0) - (b ?? 0));
        expect(all).toEqual(Array.from({ length: issue.pages }, (_, i) => i + 1));
        expect(issue.status === 'on-film').toBe(issue.pages > 0);
      });
    }
  });

  it('puts every issue on a day of its pattern or, off-day, on the day before, with the right weekday word', () => {
    for (const film of films) {
      for (const issue of film.issues) {
        const title = film.titles.find((each) => each.id === issue.title)!;
        const days = title.patterns[0]!.days;
        expect(isDay(issue.date)).toBe(true);
        expect(days.includes(weekdayOf(issue.date)) || days.includes(weekdayOf(dateOf(dayNumber(issue.date) + 1)))).toBe(true);
        if (issue.weekdayPrinted !== null && issue.datePrinted !== null) {
          const real = [issue.date, issue.datePrinted].map((date) => weekdayWord(weekdayOf(date), title.language));
          expect(real).toContain(issue.weekdayPrinted);
        }
      }
    }
  });

  it('has every oddity somewhere', () => {
    const text = ODDITIES.map((oddity) => JSON.stringify(makeFilm({ seed: 3, oddities: [oddity], oddPerMille: 600, reels: 1 })));
    const none = JSON.stringify(makeFilm({ seed: 3, oddPerMille: 0, reels: 1 }));
    expect(new Set([...text, none]).size).toBe(ODDITIES.length + 1);
  });

  it('names a real frame wherever a frame repeats another', () => {
    let repeats = 0;
    for (const film of films) {
      const pictures = new Set(film.reels.flatMap((reel) => reel.shots.map((shot) => shot.picture)));
      expect(pictures.size).toBe(film.reels.reduce((sum, reel) => sum + reel.shots.length, 0));
      for (const reel of film.reels) {
        for (const shot of reel.shots) {
          const named = shot.duplicateOf ?? shot.retakeOf;
          if (named === null) continue;
          repeats += 1;
          const [first, second] = named.split(':');
          const where = second === undefined ? reel : film.reels.find((each) => each.number === first)!;
          const other = where.shots.find((each) => each.frame === (second ?? first))!;
          expect([other.issue, other.place, other.picture]).toEqual([shot.issue, shot.place, shot.twin]);
          expect(other.deliver).toBe(!shot.deliver);
        }
      }
    }
    expect(repeats).toBeGreaterThan(300);
  });
});

describe('record and faithful return', () => {
  it('agree in every delivered page', () => {
    for (const film of films) {
      const record = sideOfRecord(recordOf(film));
      const returned = sideOfPlan(planOf(film));
      record.reels.forEach((reel, r) => {
        const wanted = reel.frames.filter((frame) => frame.kind === 'page' && frame.deliver);
        const sent = returned.reels[r]!.frames.filter((frame) => frame.kind === 'page');
        expect(sent.map((frame) => frame.frame?.text)).toEqual(wanted.map((frame) => frame.frame?.text));
        wanted.forEach((frame, i) => {
          const other = sent[i]!;
          const [a, b] = [record.issues[frame.issue!]!, returned.issues[other.issue!]!];
          expect([b.title, b.date, b.edition, b.datePrinted, b.volume, b.issueNumber]).toEqual([
            a.title,
            a.date,
            a.edition,
            a.datePrinted,
            a.volume,
            a.issueNumber,
          ]);
          expect([other.order, other.section]).toEqual([frame.order, frame.section]);
          expect(other.page).toBe(frame.pagePrinted === '-' ? null : (frame.pagePrinted ?? frame.page));
        });
      });
    }
  });
});
