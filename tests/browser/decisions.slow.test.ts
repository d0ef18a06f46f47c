import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Rulings } from '../../src/model/rulings.js';
import { renderHtml } from '../../src/report/html/index.js';
import { HOSTILE_RESULT } from '../report/hostile.js';
import { benchOf } from './bench-page.js';
import { browserOrReason, launch, reload, show } from './browser.js';
import { DEMO, SECOND } from './results.js';

const found = browserOrReason();
const id = (number: number): string => DEMO.findings[number - 1]!.id;
const ruling = (number: number, facts: object = {}) => ({
  finding: id(number),
  decision: 'accept-as-is',
  note: '',
  by: 'Ada Pell',
  on: '2031-02-28',
  ...facts,
});
const fileOf = (...rulings: readonly object[]) => ({ format: 'reeltally/rulings/1', rulings });

describe.runIf('path' in found)('rulings on the page', { timeout: 180_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch('path' in found ? found.path : '');
  });
  afterAll(async () => browser.close());

  it('are saved with name and day, asked once, and the program reads them', async () => {
    const { page, complaints, requests, close } = await show(browser, renderHtml(DEMO));
    const { decide, saved, button } = benchOf(page);
    await decide(1, 'Vendor corrects');
    await decide(5, 'Our record was wrong', 'No blank there: I looked at the film.\nTwice.');
    await decide(6, 'Accept as it is');
    await decide(7, 'Accept as it is');
    await button('Accept as it is').click();
    await button('Save rulings').click();
    const dialog = page.getByRole('dialog', { name: 'Who decides?' });
    await dialog.getByLabel('Day').fill('');
    await dialog.getByRole('button', { name: 'Save rulings' }).click();
    expect(await page.locator('#signing-fault').textContent()).toBe('Write your name and the day.');
    await dialog.getByRole('button', { name: 'Not now' }).click();
    const common = { by: 'Teo Anselm', on: '2031-03-02' };
    expect(await saved()).toEqual([
      { finding: id(1), decision: 'vendor-corrects', note: '', ...common },
      { finding: id(5), decision: 'collation-wrong', note: 'No blank there: I looked at the film.\nTwice.', ...common },
      { finding: id(6), decision: 'accept-as-is', note: '', ...common },
    ]);
    await decide(8, 'Vendor corrects');
    expect(await saved()).toHaveLength(4);
    expect(complaints).toEqual([]);
    expect(requests.filter((address) => !/^(file|blob):/.test(address))).toEqual([]);
    await close();
  });

  it('work from the keyboard alone', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    await page.keyboard.press('Tab');
    expect(await page.evaluate('document.activeElement.textContent')).toBe('To the findings');
    await page.keyboard.press('j');
    await page.keyboard.press('v');
    await page.keyboard.press('n');
    await page.keyboard.type('Clear from the weekday.');
    await page.getByRole('button', { name: 'Save rulings' }).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.type('Ilse Marrow');
    const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
    const file = JSON.parse(readFileSync(await download.path(), 'utf8')) as Rulings;
    expect(file.rulings).toMatchObject([
      { finding: id(2), decision: 'vendor-corrects', note: 'Clear from the weekday.', by: 'Ilse Marrow' },
    ]);
    await close();
  });

  it('that the result already holds stay as they were, name and day included', async () => {
    const { page, close } = await show(browser, renderHtml(SECOND));
    const { decide, saved } = benchOf(page);
    await decide(1, 'Vendor corrects');
    const rulings = await saved();
    expect(rulings).toHaveLength(2);
    expect(rulings[1]).toEqual({ finding: 'issue-number-differs:vz90000001:1899-02-02', ...SECOND.findings[4]!.ruling! });
    await close();
  });

  it('name findings exactly, whatever characters their ids hold', async () => {
    const { page, close } = await show(browser, renderHtml(HOSTILE_RESULT));
    const { button, sign } = benchOf(page);
    await button('Save rulings').click();
    await sign();
    const wanted = HOSTILE_RESULT.findings.map((one) => one.id).filter((one) => one.length <= 1000 && !/\p{Cs}/u.test(one));
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('dialog').getByRole('button', { name: 'Save rulings' }).click(),
    ]);
    const ids = (JSON.parse(readFileSync(await download.path(), 'utf8')) as Rulings).rulings.map((one) => one.finding);
    for (const one of wanted) expect(ids).toContain(one);
    await close();
  });

  it('are found again after a reload, and forgotten when told to', async () => {
    const { page, asked, close } = await show(browser, renderHtml(DEMO));
    const { decide, told, button } = benchOf(page);
    await decide(2, 'Accept as it is');
    await reload(page);
    expect(asked).toEqual(['beforeunload']);
    expect(await told(2)).toBe('✓ accept as it is');
    expect(await page.locator('#saved').textContent()).toBe('1 of 13 findings decided, 1 not saved yet.');
    await button('Undo what is not saved').click();
    await reload(page);
    expect(await told(2)).toBe('');
    await close();
  });

  it('go back to how they were last saved or loaded, and no further', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    const { decide, told, button, saved, load } = benchOf(page);
    await decide(1, 'Vendor corrects', 'Clear.');
    await saved();
    await load(fileOf(ruling(2)));
    await expect.poll(() => told(2)).toBe('✓ accept as it is');
    await decide(3, 'Accept as it is');
    await decide(1, 'Our record was wrong');
    await reload(page);
    await button('Undo what is not saved').click();
    expect(await Promise.all([told(1), told(2), told(3)])).toEqual(['✓ vendor corrects', '✓ accept as it is', '']);
    expect(await page.locator('#saved').textContent()).toBe('2 of 13 findings decided.');
    await close();
  });

  it('pressed off and on again are what they were, with note, name and day', async () => {
    const { page, close } = await show(browser, renderHtml(SECOND));
    const { row, saved } = benchOf(page);
    const at = SECOND.findings.findIndex(({ ruling: own }) => own !== null);
    const ids = await page.locator('.finding .reference code:last-child').allTextContents();
    const listed = ids.indexOf(SECOND.findings[at]!.id);
    expect(listed).toBeGreaterThanOrEqual(0);
    await row(listed + 1).click();
    const key = { 'vendor-corrects': 'v', 'accept-as-is': 'a', 'collation-wrong': 'r' }[SECOND.findings[at]!.ruling!.decision]!;
    await page.keyboard.press(key);
    expect(await page.locator('#saved').textContent()).toMatch(/1 not saved yet/);
    await page.keyboard.press(key);
    expect(await page.locator('#saved').textContent()).toMatch(/decided\.$/);
    const [first] = await saved();
    expect(first).toEqual({ finding: SECOND.findings[at]!.id, ...SECOND.findings[at]!.ruling! });
    await close();
  });

  it('are not made of what is not on the screen, nor of what is typed as a reason', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    const { told } = benchOf(page);
    await page.getByRole('link', { name: 'Calendar' }).click();
    for (const key of ['v', 'a', 'r']) await page.keyboard.press(key);
    await page.getByRole('link', { name: 'Findings', exact: true }).click();
    expect(await told(1)).toBe('');
    await page.keyboard.press('n');
    await page.keyboard.type('rav/j');
    expect(await told(1)).toBe('');
    await page.keyboard.press('Escape');
    await page.keyboard.press('v');
    expect(await told(1)).toBe('✓ vendor corrects');
    expect(await page.locator('#note').inputValue()).toBe('rav/j');
    // What is marked stands on paper, and on the screen in the bar alone.
    const marked = page.locator('.chosen .marked');
    expect(await marked.isVisible()).toBe(false);
    await page.emulateMedia({ media: 'print' });
    expect(await marked.textContent()).toBe('Marked on the screen, not verified yet: vendor corrects (not saved yet): rav/j.');
    expect(await marked.isVisible()).toBe(true);
    await close();
  });

  it('are kept in memory where the browser refuses to keep anything', async () => {
    const { page, address, complaints, close } = await show(browser, renderHtml(DEMO));
    await page.addInitScript(
      "for (const name of ['localStorage', 'sessionStorage']) Object.defineProperty(window, name, { get() { throw new DOMException('refused', 'SecurityError'); } })",
    );
    await page.goto('about:blank');
    await page.goto(address);
    const { decide, saved } = benchOf(page);
    await decide(1, 'Accept as it is');
    expect(await saved()).toHaveLength(1);
    expect(complaints).toEqual([]);
    await close();
  });

  it("are loaded from a saved file, those of others beside one's own", async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    const { decide, load, told, saved } = benchOf(page);
    await decide(1, 'Vendor corrects');
    await load(fileOf(ruling(2), ruling(3, { decision: 'collation-wrong', note: 'Seen.' })));
    await expect.poll(() => told(3)).toBe('✓ our record was wrong');
    expect(await page.locator('#saved').textContent()).toBe(
      '2 rulings taken over from rulings.json. 3 of 13 findings decided, 1 not saved yet.',
    );
    expect((await saved()).map(({ finding, by }) => [finding, by])).toEqual([
      [id(1), 'Teo Anselm'],
      [id(2), 'Ada Pell'],
      [id(3), 'Ada Pell'],
    ]);
    await close();
  });

  it('tell every mistake of a file at once and take the rest, if the reader wants it', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    const { load, told } = benchOf(page);
    await load(
      fileOf(
        ruling(1),
        ruling(2, { finding: 'gone:1' }),
        ruling(3, { decision: 'maybe', by: '' }),
        ruling(4, { on: '2031-02-30' }),
        ruling(5),
        ruling(5, { decision: 'vendor-corrects' }),
      ),
    );
    const dialog = page.getByRole('dialog', { name: 'Rulings to take over' });
    await dialog.waitFor();
    expect(await dialog.locator('#loading-errors li').allTextContents()).toEqual([
      'Entry 2 (gone:1): this report has no such finding.',
      `Entry 3 (${id(3)}): the decision "maybe" is none of the three; the name is missing.`,
      `Entry 4 (${id(4)}): "2031-02-30" is not a day written YYYY-MM-DD.`,
      `Entries 5 and 6 decide differently about ${id(5)}: neither counts.`,
    ]);
    expect(await dialog.locator('#loading-says').textContent()).toBe(
      'From rulings.json: 1 ruling can be taken over; 5 of its entries do not count.',
    );
    await dialog.getByRole('button', { name: 'Take over' }).click();
    await expect.poll(() => told(1)).toBe('✓ accept as it is');
    expect(await told(5)).toBe('');
    for (const [content, says] of [
      ['nonsense', 'This is not JSON: choose a rulings.json that was saved from such a page.'],
      [{ format: 'other' }, 'This is not a file of rulings: its format is "other", not "reeltally/rulings/1".'],
      [{ format: 'reeltally/rulings/1' }, 'The file has no list of rulings.'],
    ] as const) {
      await load(content);
      await dialog.waitFor();
      expect(await dialog.locator('#loading-errors').innerText()).toBe(says);
      expect(await dialog.locator('#loading-says').textContent()).toBe('From rulings.json: nothing can be taken over.');
      await dialog.getByRole('button', { name: 'Close' }).click();
    }
    await close();
  });

  it('that contradict each other are shown side by side, and the reader says which counts', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    const { decide, load, told } = benchOf(page);
    await decide(1, 'Vendor corrects');
    await decide(2, 'Vendor corrects', 'Mine.');
    await load(fileOf(ruling(1), ruling(2, { note: 'Theirs.' }), ruling(3)));
    const dialog = page.getByRole('dialog', { name: 'Rulings to take over' });
    await dialog.waitFor();
    expect(await dialog.locator('#loading-says').textContent()).toBe(
      'From rulings.json: 1 ruling can be taken over; 2 are decided differently here.',
    );
    const second = dialog.getByRole('group', { name: 'Finding 2: The date of an issue differs' });
    expect(await second.innerText()).toMatch(
      /Keep: vendor corrects \(not saved yet\): Mine\.\s+Take: accept as it is \(Ada Pell, 2031-02-28\): Theirs\./,
    );
    await second.getByLabel('Take:').check();
    await dialog.getByRole('button', { name: 'Take over' }).click();
    await expect.poll(() => told(2)).toBe('✓ accept as it is');
    expect([await told(1), await told(2), await told(3)]).toEqual(['✓ vendor corrects', '✓ accept as it is', '✓ accept as it is']);
    await close();
  });

  it('of two tabs are kept apart, and each says what the other has decided', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    const other = await page.context().newPage();
    await other.goto(page.url().replace(/#.*/, ''));
    const [mine, theirs] = [benchOf(page), benchOf(other)];
    await mine.decide(1, 'Vendor corrects');
    await theirs.decide(1, 'Accept as it is');
    await theirs.decide(2, 'Accept as it is');
    const notice = page.locator('#elsewhere span');
    await expect
      .poll(() => notice.textContent())
      .toBe('Another tab has just changed its decisions: 2 findings are decided differently than here.');
    expect([await mine.told(1), await mine.told(2)]).toEqual(['✓ vendor corrects', '']);
    await reload(page);
    expect(await mine.told(1)).toBe('✓ vendor corrects');
    await mine.button('Take them over').click();
    const dialog = page.getByRole('dialog', { name: 'Rulings to take over' });
    await dialog.waitFor();
    await dialog.getByRole('button', { name: 'Take over', exact: true }).click();
    await expect.poll(() => mine.told(2)).toBe('✓ accept as it is');
    expect(await mine.told(1)).toBe('✓ vendor corrects');
    await other.close();
    await close();
  });

  it('of two other tabs that contradict each other are taken over one tab after the other, and the second is asked about', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    const address = page.url().replace(/#.*/, '');
    for (const decision of ['Vendor corrects', 'Accept as it is']) {
      const other = await page.context().newPage();
      await other.goto(address);
      await benchOf(other).decide(1, decision, `By ${decision}.`);
    }
    const mine = benchOf(page);
    await expect.poll(() => page.locator('#elsewhere span').textContent()).toMatch(/: 1 finding is decided differently than here\.$/);
    await mine.button('Take them over').click();
    await expect.poll(() => mine.told(1)).not.toBe('');
    const first = await mine.told(1);
    expect(await page.locator('#elsewhere').isVisible()).toBe(true);
    await mine.button('Take them over').click();
    const dialog = page.getByRole('dialog', { name: 'Rulings to take over' });
    await dialog.waitFor();
    expect(await dialog.locator('.conflict label').allTextContents()).toEqual([
      expect.stringMatching(/^ Keep: .+By .+\.$/),
      expect.stringMatching(/^ Take: .+By .+\.$/),
    ]);
    await dialog.getByLabel('Take:').check();
    await dialog.getByRole('button', { name: 'Take over', exact: true }).click();
    await expect.poll(() => mine.told(1)).not.toBe(first);
    await close();
  });

  it('of another result are not mixed with these', async () => {
    const { page, address, close } = await show(browser, renderHtml(DEMO));
    await benchOf(page).decide(1, 'Vendor corrects');
    const another = await show(browser, renderHtml({ ...DEMO, run: { ...DEMO.run, at: '2031-03-01T00:00:00Z' } }));
    expect(await benchOf(another.page).told(1)).toBe('');
    expect(await another.page.locator('#elsewhere').isVisible()).toBe(false);
    expect(address).not.toBe(another.address);
    await another.close();
    await close();
  });
});
