import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { renderHtml } from '../../src/report/html/index.js';
import { benchOf } from './bench-page.js';
import { accessibilityFaults, browserOrReason, launch, show } from './browser.js';
import { DEMO } from './results.js';

const found = browserOrReason();
const ALL = DEMO.findings.map((_, at) => at + 1);

describe.runIf('path' in found)('the findings as a workbench', { timeout: 180_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch('path' in found ? found.path : '');
  });
  afterAll(async () => browser.close());

  it('lists every finding with severity, head and frames, and shows one: the worst first', async () => {
    const { page, complaints, close } = await show(browser, renderHtml(DEMO));
    const { row, listed, chosen } = benchOf(page);
    expect(await listed()).toEqual(ALL);
    expect(await chosen()).toBe(1);
    expect(await row(5).innerText()).toMatch(/^critical|major\s+5\s+A frame was not scanned\s+frames 21 to 120$/);
    expect(await row(5).locator('.severity use').getAttribute('href')).toBe('#mark-major');
    await row(5).click();
    expect(await chosen()).toBe(5);
    expect(await row(5).getAttribute('aria-current')).toBe('true');
    expect(await page.evaluate('location.hash')).toBe(`#finding-${DEMO.findings[4]!.id}`);
    expect(complaints).toEqual([]);
    await close();
  });

  it('moves with j, k and the arrows, through what is listed alone', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    const { chosen, list } = benchOf(page);
    for (const [key, number] of [
      ['j', 2],
      ['j', 3],
      ['k', 2],
      ['ArrowDown', 3],
      ['ArrowUp', 2],
      ['k', 1],
      ['k', 1],
    ] as const) {
      await page.keyboard.press(key);
      expect(await chosen()).toBe(number);
    }
    await page.getByLabel('Major').uncheck();
    await list.locator('[aria-current]').focus();
    for (const number of [2, 3, 4, 13, 13]) {
      await page.keyboard.press('ArrowDown');
      expect(await chosen()).toBe(number);
    }
    expect(await list.locator('a:focus .number').textContent()).toBe('13');
    await close();
  });

  it('decides with v, a and r, takes it back with the same key, and heeds no key while somebody types or after they are switched off', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    const { told, chosen } = benchOf(page);
    await page.keyboard.press('v');
    expect(await told(1)).toBe('✓ vendor corrects');
    await page.keyboard.press('a');
    expect(await told(1)).toBe('✓ accept as it is');
    await page.keyboard.press('r');
    expect(await told(1)).toBe('✓ our record was wrong');
    // What the record would need is shown at once.
    expect(await page.locator('.chosen .record-side table').innerText()).toMatch(/25 to 28\s+set\s+date\s+1879-09-02\s+1874-09-02/);
    await page.keyboard.press('n');
    await page.keyboard.type('jar, a pun');
    await page.keyboard.press('Tab');
    expect([await told(1), await chosen(), await page.locator('#note').inputValue()]).toEqual(['✓ our record was wrong', 1, 'jar, a pun']);
    await page.keyboard.press('r');
    expect(await told(1)).toBe('');
    await page.keyboard.press('?');
    const keys = page.getByRole('dialog', { name: 'Keys' });
    expect(await keys.innerText()).toMatch(/J or ↓\s+next finding/);
    await page.keyboard.press('v');
    await keys.getByLabel('Keys are on').uncheck();
    await keys.getByRole('button', { name: 'Close' }).click();
    await page.keyboard.press('v');
    await page.keyboard.press('j');
    expect([await told(1), await chosen()]).toEqual(['', 1]);
    await close();
  });

  it('filters by severity, decided or open, word, frame and day', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    const { listed, chosen, button, decide } = benchOf(page);
    const find = page.locator('#find');
    await page.getByLabel('Major').uncheck();
    expect(await listed()).toEqual([1, 2, 3, 4, 13]);
    await button('Show all').click();
    await find.fill('SUPPLEMENT place');
    expect(await listed()).toEqual([9]);
    expect(await chosen()).toBe(9);
    await find.fill('1879-11-22');
    expect(await listed()).toContain(4);
    // Frame 26 lies within frames 25 to 28 and 21 to 120; 2 and 6 do not make it.
    await find.fill('26');
    expect(await listed()).toEqual([1, 5]);
    // Days as people write them, in the findings' own words or not; months too, and a year.
    for (const day of ['2 September 1879', 'Tuesday 2 Sept. 1879', 'September 2nd, 1879', '2 sep'])
      expect([day, (await find.fill(day), await listed())]).toEqual([day, [1, 5]]);
    await find.fill('24 Oct 1879');
    expect(await listed()).toContain(2);
    await find.fill('Nov 1879');
    expect(await listed()).toEqual([2, 3, 4, 5, 10]);
    await find.fill('1874');
    expect(await listed()).toEqual([1]);
    // A number belongs to the word before it, and what is drawn beside a finding is none of it.
    await find.fill('page 14');
    expect(await listed()).toEqual([10]);
    await find.fill('reel 101');
    expect(await listed()).toEqual([]);
    await find.fill('row 27');
    expect(await listed()).toEqual([1]);
    await find.fill('frames 98 to 101');
    expect(await listed()).toEqual([2, 5]);
    await find.fill('frame 90');
    expect(await listed()).toEqual([5, 8]);
    await find.fill('no such words anywhere');
    expect(await listed()).toEqual([]);
    expect(await page.locator('#shown').textContent()).toBe('0 of 13 listed.');
    await button('Show all').click();
    await decide(3, 'Accept as it is');
    await page.locator('#state').selectOption('decided');
    expect(await listed()).toEqual([3]);
    await page.locator('#state').selectOption('open');
    expect(await listed()).toEqual(ALL.filter((number) => number !== 3));
    await close();
  });

  it('keeps filter and choice in the address, so that a link restores them', async () => {
    const first = await show(browser, renderHtml(DEMO));
    await first.page.getByLabel('Critical').uncheck();
    await first.page.locator('#state').selectOption('open');
    await first.page.locator('#find').fill('frame 60');
    await benchOf(first.page).row(6).click();
    const hash = String(await first.page.evaluate('location.hash'));
    await first.close();
    const { page, close } = await show(browser, renderHtml(DEMO), {}, hash);
    const { listed, chosen } = benchOf(page);
    expect(await chosen()).toBe(6);
    expect(await listed()).toContain(6);
    expect(await listed()).not.toContain(1);
    expect(await page.getByLabel('Critical').isChecked()).toBe(false);
    expect([await page.locator('#find').inputValue(), await page.locator('#state').inputValue()]).toEqual(['frame 60', 'open']);
    // A link to a finding that the filter hides shows it all the same.
    await page.evaluate(`location.hash = '#finding-${DEMO.findings[0]!.id}'`);
    await expect.poll(chosen).toBe(1);
    expect(await listed()).toEqual(ALL);
    await close();
  });

  it('shows the other parts one at a time, and comes back by a link to a finding', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    const part = (name: string) => page.getByRole('navigation', { name: 'Parts of the report' }).getByRole('link', { name });
    for (const [name, head] of [
      ['Film', 'The film, frame by frame'],
      ['Calendar', 'Calendar'],
      ['Counts', 'Counts'],
    ] as const) {
      await part(name).click();
      await expect.poll(() => page.getByRole('heading', { name: head, exact: true }).isVisible()).toBe(true);
      expect(await part(name).getAttribute('aria-current')).toBe('page');
      expect(await page.locator('#list').isVisible()).toBe(false);
    }
    await part('Film').click();
    const issue = page.locator('.group', { hasText: '1879-09-02' });
    await issue.getByRole('button').click();
    await issue.getByRole('link', { name: '1', exact: true }).click();
    await expect.poll(() => benchOf(page).chosen()).toBe(1);
    await close();
  });

  it('goes from part to part, back and by an address without a remark of the browser about what is put away', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    const remarks: string[] = [];
    page.on('console', (message) => remarks.push(message.text()));
    for (const part of ['#film', '#calendar', '#counts', '#findings', '#record']) {
      await page.locator(`header nav a[href="${part}"]`).click();
      await page.evaluate('new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))');
    }
    await page.evaluate("location.hash = '#film'");
    await page.evaluate('history.back()');
    await expect.poll(async () => page.evaluate('location.hash')).toBe('#record');
    expect(remarks).toEqual([]);
    await close();
  });

  it('folds what a finding has to unfold when it is shown, with mouse and keyboard', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    const [head, inside] = [page.locator('.chosen .files button'), page.locator('.chosen .files ul')];
    expect([await head.getAttribute('aria-expanded'), await inside.isVisible()]).toEqual(['false', false]);
    await head.click();
    expect([await head.getAttribute('aria-expanded'), await inside.isVisible()]).toEqual(['true', true]);
    await head.press('Enter');
    expect([await head.getAttribute('aria-expanded'), await inside.isVisible()]).toEqual(['false', false]);
    await close();
  });

  it('unfolds an issue of the film with mouse and keyboard, and axe-core finds nothing against it', async () => {
    const { page, complaints, close } = await show(browser, renderHtml(DEMO), {}, '#film');
    const issue = page.locator('.group', { hasText: '1879-09-02' });
    const [head, inside] = [issue.getByRole('button'), issue.locator('ul')];
    const seen = async () => [await head.getAttribute('aria-expanded'), await inside.isVisible()];
    expect(await seen()).toEqual(['false', false]);
    await head.click();
    expect(await seen()).toEqual(['true', true]);
    await head.press('Enter');
    expect(await seen()).toEqual(['false', false]);
    await head.press('Space');
    expect(await seen()).toEqual(['true', true]);
    // What the button is called is what it shows: the day, the signs in words and the numbers.
    expect(await head.ariaSnapshot()).toMatch(/1879-09-02.*Tolmouth.*4 pages; differ.*25 to 28 came 24 to 27/);
    expect(await accessibilityFaults(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await close();
  });

  it('links every sign of the film at a glance to a finding, and marks there what is chosen', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    const signs = page.locator('.bar > *');
    const frames = DEMO.reels.flatMap((reel) => reel.frames);
    expect(await signs.count()).toBe(frames.length);
    const linked = await page.locator('.bar > a').count();
    expect(linked).toBe(frames.filter(({ findings, follows = [] }) => findings.length + follows.length > 0).length);
    await signs.nth(frames.findIndex(({ frame }) => frame === '115')).click();
    await expect.poll(() => benchOf(page).chosen()).toBe(4);
    const here = page.locator('.bar > .here');
    expect([await here.count(), await here.getAttribute('title')]).toEqual([1, 'Frame 115, page 1: not delivered; findings 4 to 5']);
    await close();
  });

  it('keeps the decision in view on a laptop, and puts the verdict first on a phone', async () => {
    const laptop = await show(browser, renderHtml(DEMO), { viewport: { width: 1366, height: 768 } });
    for (const number of ALL) {
      await benchOf(laptop.page).row(number).click();
      const box = await laptop.page.locator('#decide').boundingBox();
      expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThanOrEqual(768);
    }
    expect(await laptop.page.evaluate('document.documentElement.scrollHeight')).toBe(768);
    await laptop.close();
    const phone = await show(browser, renderHtml(DEMO), { viewport: { width: 390, height: 844 } });
    const top = async (selector: string): Promise<number> => (await phone.page.locator(selector).first().boundingBox())?.y ?? Number.NaN;
    expect(await phone.page.evaluate('scrollY')).toBe(0);
    expect(await top('#verdict')).toBeLessThan(844 / 2);
    const order = [await top('#verdict'), await top('.bar'), await top('#list'), await top('.chosen')];
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(await phone.page.evaluate('document.documentElement.scrollWidth')).toBe(390);
    await benchOf(phone.page).row(9).click();
    await expect.poll(() => top('.chosen')).toBeLessThan(100);
    const bar = await phone.page.locator('#decide').boundingBox();
    expect([(bar?.y ?? 0) + (bar?.height ?? 0) <= 844, (bar?.height ?? 999) < 844 / 3]).toEqual([true, true]);
    await phone.close();
  });
});
