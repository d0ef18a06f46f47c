import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readRulingFiles } from '../../src/acts/inputs/ruling-files.js';
import type { Rulings } from '../../src/model/rulings.js';
import { renderHtml } from '../../src/report/html/index.js';
import { newFolder } from '../cli/command.js';
import { HOSTILE_RESULT } from '../report/hostile.js';
import { browserOrReason, launch, show } from './browser.js';
import { DEMO, SECOND } from './results.js';

const found = browserOrReason();

/** Saves the decisions and reads the file back as `verify --rulings` does, its schema included. */
async function saved(page: Page): Promise<Rulings['rulings']> {
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save decisions' }).click()]);
  expect(download.suggestedFilename()).toBe('rulings.json');
  const path = join(newFolder(), 'rulings.json');
  await download.saveAs(path);
  expect((JSON.parse(readFileSync(path, 'utf8')) as Rulings).format).toBe('reeltally/rulings/1');
  return (await readRulingFiles([path])).rulings;
}

const form = (page: Page, number: number) => page.getByRole('group', { name: `Decision about finding ${String(number)}`, exact: true });

describe.runIf('path' in found)('the page for those who decide', { timeout: 180_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch('path' in found ? found.path : '');
  });
  afterAll(async () => browser.close());

  const shownNumbers = async (page: Page): Promise<readonly number[]> =>
    (await page.locator('.finding:visible h3').allTextContents()).map((head) => Number.parseInt(head, 10));

  it('filters by severity, cause, title and code, searches, and shows all again', async () => {
    const { page, complaints, close } = await show(browser, renderHtml(DEMO));
    const all = await shownNumbers(page);
    expect(all).toEqual(DEMO.findings.map((_, at) => at + 1));
    await page.getByLabel('Major').uncheck();
    expect(await shownNumbers(page)).toEqual([1, 2, 3, 4, 13]);
    await page.getByLabel('Cause').selectOption('vendor-image');
    expect(await shownNumbers(page)).toEqual([4]);
    await page.getByRole('button', { name: 'Show all' }).click();
    expect(await shownNumbers(page)).toEqual(all);
    await page.getByLabel('Title').selectOption('sn99089156');
    await page.getByLabel('Code').selectOption('date-differs');
    expect(await shownNumbers(page)).toEqual([1]);
    expect(await page.locator('#shown').textContent()).toBe('1 of 13 findings shown.');
    await page.getByRole('button', { name: 'Show all' }).click();
    await page.getByLabel('Search').fill('SUPPLEMENT place');
    expect(await shownNumbers(page)).toEqual([9]);
    await page.getByLabel('Search').fill('not decided');
    expect(await shownNumbers(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await close();
  });

  it('can be filtered by reel where there are several', async () => {
    const { page, close } = await show(
      browser,
      renderHtml({ ...DEMO, findings: DEMO.findings.map((one, at) => (at < 2 ? { ...one, reel: '55902' } : one)) }),
    );
    await page.getByRole('combobox', { name: 'Reel' }).selectOption('55902');
    expect(await shownNumbers(page)).toEqual([1, 2]);
    await close();
  });

  it('opens the finding that the address names, even when all are folded or filtered away', async () => {
    const id = DEMO.findings[8]!.id;
    const { page, close } = await show(browser, renderHtml(DEMO), {}, `#finding-${id}`);
    const target = page.locator(`[id="finding-${id}"]`);
    const top = async (): Promise<number> => (await target.boundingBox())?.y ?? Number.NaN;
    await expect.poll(top).toBeLessThan(200);
    await page.getByRole('button', { name: 'Fold all', exact: true }).click();
    expect(await target.locator('.says').isVisible()).toBe(false);
    await page.getByLabel('Search').fill('nothing has these words');
    await page.evaluate(`location.hash = ''; location.hash = '#finding-${id}'`);
    await expect.poll(() => target.locator('.says').isVisible()).toBe(true);
    await close();
  });

  it('works from the keyboard alone: skip link, folding, deciding, saving', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    await page.keyboard.press('Tab');
    expect(await page.evaluate('document.activeElement.textContent')).toBe('To the findings');
    await page.keyboard.press('Enter');
    const here = async (): Promise<unknown> => page.evaluate("document.activeElement === document.querySelector('.finding summary')");
    for (let step = 0; step < 40 && (await here()) !== true; step++) await page.keyboard.press('Tab');
    expect(await here()).toBe(true);
    await page.keyboard.press('Enter');
    expect(await page.locator('.finding .says').first().isVisible()).toBe(false);
    await page.keyboard.press('Enter');
    await form(page, 1).getByLabel('Not decided').focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Tab');
    await page.keyboard.type('Clear from the weekday.');
    await page.getByLabel('Your name').focus();
    await page.keyboard.type('Ilse Marrow');
    await page.getByRole('button', { name: 'Save decisions' }).focus();
    const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
    const file = JSON.parse(readFileSync(await download.path(), 'utf8')) as Rulings;
    expect(file.rulings).toMatchObject([
      { finding: DEMO.findings[0]!.id, decision: 'vendor-corrects', note: 'Clear from the weekday.', by: 'Ilse Marrow' },
    ]);
    await close();
  });

  it('saves what was decided, with name and day, and the program reads it', async () => {
    const { page, complaints, requests, close } = await show(browser, renderHtml(DEMO));
    await form(page, 1).getByLabel('The vendor corrects it').check();
    await form(page, 5).getByLabel('The record was wrong').check();
    await form(page, 5).getByLabel('Why').fill('No blank there: I looked at the film.\nTwice.');
    await form(page, 6).getByLabel('Accept as it is').check();
    await form(page, 7).getByLabel('Accept as it is').check();
    await form(page, 7).getByLabel('Not decided').check();
    await page.getByRole('button', { name: 'Save decisions' }).click();
    expect(await page.locator('#saved').textContent()).toMatch(/^Write your name first/);
    await page.getByLabel('Your name').fill('Teo Anselm');
    await page.getByLabel('Day').fill('2031-03-02');
    const common = { by: 'Teo Anselm', on: '2031-03-02' };
    expect(await saved(page)).toEqual([
      { finding: DEMO.findings[0]!.id, decision: 'vendor-corrects', note: '', ...common },
      { finding: DEMO.findings[4]!.id, decision: 'collation-wrong', note: 'No blank there: I looked at the film.\nTwice.', ...common },
      { finding: DEMO.findings[5]!.id, decision: 'accept-as-is', note: '', ...common },
    ]);
    expect(complaints).toEqual([]);
    expect(requests.filter((address) => !/^(file|blob):/.test(address))).toEqual([]);
    await close();
  });

  it('keeps decisions that the result already holds as they were, name and day included', async () => {
    const { page, close } = await show(browser, renderHtml(SECOND));
    await form(page, 1).getByLabel('The vendor corrects it').check();
    await page.getByLabel('Your name').fill('Teo Anselm');
    await page.getByLabel('Day').fill('1926-01-20');
    const rulings = await saved(page);
    expect(rulings).toHaveLength(2);
    expect(rulings[1]).toEqual({ finding: 'issue-number-differs:vz90000001:1899-02-02', ...SECOND.findings[4]!.ruling! });
    await close();
  });

  it('writes the ids of findings exactly, whatever characters they hold', async () => {
    const { page, close } = await show(browser, renderHtml(HOSTILE_RESULT));
    await page.getByLabel('Your name').fill('Teo Anselm');
    const wanted = HOSTILE_RESULT.findings.map((one) => one.id).filter((id) => id.length <= 1000 && !/\p{Cs}/u.test(id));
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save decisions' }).click()]);
    const ids = (JSON.parse(readFileSync(await download.path(), 'utf8')) as Rulings).rulings.map((ruling) => ruling.finding);
    for (const id of wanted) expect(ids).toContain(id);
    await close();
  });

  it('finds decisions again after a reload, and forgets them when told to', async () => {
    const { page, asked, close } = await show(browser, renderHtml(DEMO));
    await form(page, 2).getByLabel('Accept as it is').check();
    await page.reload();
    expect(asked).toEqual(['beforeunload']);
    expect(await form(page, 2).getByLabel('Accept as it is').isChecked()).toBe(true);
    expect(await page.locator('#saved').textContent()).toBe('1 of 13 findings decided, 1 not saved yet.');
    await page.getByRole('button', { name: 'Take back what was not saved' }).click();
    await page.reload();
    expect(await form(page, 2).getByLabel('Not decided').isChecked()).toBe(true);
    await close();
  });

  it('works where the browser refuses to keep anything', async () => {
    const context = await browser.newContext();
    const page = await context.newPage();
    await page.addInitScript(
      "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('refused', 'SecurityError'); } })",
    );
    const complaints: string[] = [];
    page.on('pageerror', (error) => complaints.push(error.message));
    const { address, close } = await show(browser, renderHtml(DEMO));
    await page.goto(address);
    await form(page, 1).getByLabel('Accept as it is').check();
    await page.getByLabel('Your name').fill('Ilse Marrow');
    expect(await saved(page)).toHaveLength(1);
    expect(complaints).toEqual([]);
    await close();
    await context.close();
  });
});
