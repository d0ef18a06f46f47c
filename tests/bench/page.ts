// What the page of a large return costs the browser: 2,000 findings on 10,000 frames, by Chromium's own counters (Performance.getMetrics): `npm run bench:page`.
// CPU of the page's main thread for each thing a reader does, median and worst of several, against the 100 ms within which a page seems to answer at once
// (common practice, no source). Ends in 1 where one takes longer. Needs Chromium on PATH.
import type { CDPSession, Page } from 'playwright-core';
import { renderHtml } from '../../src/report/html/index.js';
import { CHROMIUM, launch, show } from '../browser/browser.js';
import { longFilm } from '../browser/long-film.js';

const MOST = 100;
const TIMES = 7;

/** Milliseconds of CPU that the main thread has spent on tasks so far. */
async function spent(session: CDPSession): Promise<number> {
  const { metrics } = await session.send('Performance.getMetrics');
  return 1000 * (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? Number.NaN);
}

/** Waits until what was changed is drawn. */
const drawn = (page: Page): Promise<unknown> =>
  page.evaluate('new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 0))))');

/** Things a reader does, each as a script, so that nothing is measured but the page. */
const ACTS: readonly (readonly [what: string, script: (time: number) => string])[] = [
  ['next finding (j)', () => press('j')],
  ['a decision (v)', () => press('v')],
  ['a choice in the list', (time) => `document.querySelectorAll('#list a:not([hidden])')[${String(150 * time + 40)}].click()`],
  ['the last of the list', (time) => `document.querySelectorAll('#list a')[${String(2000 - time)}].click()`],
  ['a word to find', (time) => type(`frame ${String(4003 + 5 * time)}`)],
  ['a letter to find', (time) => type(String.fromCharCode(97 + time))],
  ['nothing to find any more', () => type('')],
  ['a severity off or on', () => `document.querySelector('input[name="severity"]').click()`],
  ['decided, open, all', (time) => select(['decided', 'open', 'all'][time % 3] ?? 'all')],
  ['show all', () => `document.querySelector('#reset').click()`],
  ['what the signs mean, folded or not', () => `document.querySelector('.legend-fold summary').click()`],
  ['the film', (time) => `location.hash = '${time % 2 === 0 ? '#film' : '#findings'}'`],
  ['an issue of the film, folded or not', (time) => `document.querySelectorAll('.group button')[${String(30 * time)}].click()`],
  ['the calendar', (time) => `location.hash = '${time % 2 === 0 ? '#calendar' : '#findings'}'`],
];

const press = (key: string): string => `document.body.dispatchEvent(new KeyboardEvent('keydown', { key: '${key}', bubbles: true }))`;
const type = (text: string): string =>
  `{ const find = document.querySelector('#find'); find.value = '${text}'; find.dispatchEvent(new Event('input', { bubbles: true })); }`;
const select = (value: string): string =>
  `{ const state = document.querySelector('#state'); state.value = '${value}'; state.dispatchEvent(new Event('change', { bubbles: true })); }`;

if (CHROMIUM === null) throw new Error('Chromium is not on PATH. Install it, for instance with apt-get install chromium.');
const browser = await launch(CHROMIUM);
const report = renderHtml(longFilm(), { batch: '../return' });
const { page, close } = await show(browser, report, { viewport: { width: 1366, height: 768 } });
const session = await page.context().newCDPSession(page);
await session.send('Performance.enable', { timeDomain: 'threadTicks' });
await drawn(page);
process.stdout.write(`Page of ${(Buffer.byteLength(report) / 1e6).toFixed(1)} MB. CPU in ms, median and worst of ${String(TIMES)}:\n`);
let slow = 0;
for (const [what, script] of ACTS) {
  const costs: number[] = [];
  for (let time = 0; time < TIMES; time++) {
    const before = await spent(session);
    await page.evaluate(script(time));
    await drawn(page);
    costs.push((await spent(session)) - before);
  }
  const sorted = costs.toSorted((a, b) => a - b);
  const worst = sorted.at(-1) ?? 0;
  if (worst > MOST) slow++;
  process.stdout.write(
    `${what.padEnd(38)} ${(sorted[TIMES >> 1] ?? 0).toFixed(0).padStart(5)} ${worst.toFixed(0).padStart(5)}${worst > MOST ? '  more than 100' : ''}\n`,
  );
}
await close();
await browser.close();
process.exitCode = slow > 0 ? 1 : 0;
