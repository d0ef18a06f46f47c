import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import { renderHtml } from '../../src/report/html/index.js';
import { renderJson } from '../../src/report/json.js';
import { newFolder, reeltally } from '../cli/command.js';
import { HOSTILE_RESULT } from '../report/hostile.js';
import { accessibilityFaults, browserOrReason, launch, show } from './browser.js';
import { longFilm } from './long-film.js';
import { AGREEING, DEMO, SECOND } from './results.js';

const found = browserOrReason();

// Everything in this file needs the browser; browserOrReason has told who has none, and has thrown in CI.
describe.runIf('path' in found)('report.html in a browser', { timeout: 180_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch('path' in found ? found.path : '');
  });
  afterAll(async () => browser.close());

  const RESULTS: readonly (readonly [string, Findings])[] = [
    ['the demonstration', DEMO],
    ['a return that agrees', AGREEING],
    ['a second delivery', SECOND],
    ['hostile text', HOSTILE_RESULT],
  ];

  it.each(RESULTS)('%s: nothing is loaded, nothing complains, axe-core finds nothing in light and dark', async (_, result) => {
    const report = renderHtml(result, { batch: '../return' });
    for (const colorScheme of ['light', 'dark'] as const) {
      const { page, complaints, requests, address, close } = await show(browser, report, { colorScheme });
      expect(await accessibilityFaults(page)).toEqual([]);
      expect(complaints).toEqual([]);
      expect(requests).toEqual([address]);
      await close();
    }
  });

  // WCAG 2.2, 1.4.10: no scrolling in two directions at 320 CSS pixels.
  it.each(RESULTS)('%s: fits a width of 320 pixels', async (_, result) => {
    const { page, close } = await show(browser, renderHtml(result), { viewport: { width: 320, height: 700 } });
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(320);
    await close();
  });

  // WCAG 2.2, 1.4.12: line height 1.5, paragraphs 2, letters 0.12, words 0.16 times the size of the font.
  it('fits a width of 320 pixels with the text set wider', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO), { viewport: { width: 320, height: 700 } });
    await page.evaluate(
      `for (const one of document.querySelectorAll('body *')) { one.style.lineHeight = '1.5'; one.style.letterSpacing = '0.12em'; one.style.wordSpacing = '0.16em'; }`,
    );
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(320);
    await close();
  });

  it('draws frames that agree lighter than those that do not where colours are forced, in the film at a glance', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO), { forcedColors: 'active', colorScheme: 'light' });
    expect(await page.evaluate("getComputedStyle(document.querySelector('.bar > .sa')).backgroundColor")).toBe('rgb(255, 255, 255)');
    await close();
  });

  it('fills the window with the findings, and leaves no room to the parts that are put away', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO), { viewport: { width: 1280, height: 900 } });
    expect(await page.evaluate("document.querySelector('.workbench').getBoundingClientRect().bottom")).toBe(900);
    await close();
  });

  it('is no wider than the window around a name without a gap', async () => {
    const batch = `batch_${'x'.repeat(120)}`;
    for (const width of [320, 1280]) {
      const { page, close } = await show(browser, renderHtml({ ...DEMO, run: { ...DEMO.run, batch } }), {
        viewport: { width, height: 900 },
      });
      const wide =
        "Math.max(document.documentElement.scrollWidth, ...[...document.querySelectorAll('header, h1')].map((one) => one.getBoundingClientRect().right))";
      expect(await page.evaluate(wide)).toBeLessThanOrEqual(width);
      await close();
    }
  });

  it('says everything without a script, and offers nothing that would need one', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO), { javaScriptEnabled: false });
    const text = await page.locator('main').innerText();
    for (const finding of DEMO.findings) {
      for (const part of [finding.says, finding.instruction ?? '', ...finding.evidence]) expect(text).toContain(part);
    }
    for (const head of ['The film at a glance', 'Counts', 'Calendar', 'Pages per issue', 'Not checked']) expect(text).toContain(head);
    for (const part of ['#tools', '#decide', 'dialog']) expect(await page.locator(part).first().isVisible()).toBe(false);
    // The film stands unfolded, and nothing says that it could be opened.
    const issues = page.locator('.group');
    expect(await issues.locator('ul:visible').count()).toBe(await issues.count());
    expect(await issues.filter({ hasText: '1879-09-02' }).locator('ul').textContent()).toBe(
      'Frames 25 to 28: pages 1 to 4; came as 24 to 27; differ; findings 1, 5',
    );
    expect(text).not.toContain('Open an issue');
    expect(await page.locator('.strips button').count()).toBe(0);
    const size = "parseFloat(getComputedStyle(document.querySelector('.reel .strip')).fontSize)";
    const sizes = [];
    for (const name of ['small', 'middle', 'large']) {
      await page.locator('label', { hasText: name }).click();
      expect(await page.locator(`#cells-${name}`).isChecked()).toBe(true);
      sizes.push(Number(await page.evaluate(size)));
    }
    expect(sizes).toEqual([...new Set(sizes)].sort((a, b) => a - b));
    await close();
  });

  it('runs no script but its own: one that were put into it is refused', async () => {
    const planted = renderHtml(DEMO).replace(
      '<main>',
      '<main><script>document.title = "owned"</script><img src="https://example.invalid/a.png" onerror="document.title=1">',
    );
    const { page, complaints, close } = await show(browser, planted);
    expect(await page.title()).toBe('Batch batch_vzx_tolmouth, delivery 1: Return for rework');
    expect(complaints.filter((line) => line.includes('Content Security Policy')).length).toBeGreaterThanOrEqual(2);
    await close();
  });

  it('shows every frame of the film in its order, with both numbers where they drift apart', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO), {}, '#film');
    const letters = await page.locator('.reel i').allTextContents();
    const frames = DEMO.reels.flatMap((reel) => reel.frames);
    expect(letters.join('')).toBe(frames.map((frame) => frame.kind.charAt(0).toUpperCase()).join(''));
    expect(await page.locator('.drift').allTextContents()).toEqual(['from frame 21 numbers came −1']);
    const issue = page.locator('.group', { hasText: '1879-09-02' });
    await issue.getByRole('button').click();
    expect((await issue.locator('li').allInnerTexts()).join()).toMatch(
      /Frames 25 to 28: pages 1 to 4; came as 24 to 27; differ; findings 1, 5/,
    );
    await close();
  });

  it('shows the page itself where a file that a browser shows lies beside it, and asks for nothing else', async () => {
    const folder = newFolder();
    const png = Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8z8BQDwAEhQGAhKmMIQAAAABJRU5ErkJggg==', 'base64');
    writeFileSync(join(folder, 'page 25.png'), png);
    const frames = (kind: string) =>
      DEMO.reels.map((reel) => ({
        ...reel,
        frames: reel.frames.map((frame) =>
          frame.frame === '25' ? { ...frame, files: [{ use: 'service', path: `page 25.${kind}` }] } : frame,
        ),
      }));
    const base = pathToFileURL(folder).href;
    const { page, complaints, requests, address, close } = await show(
      browser,
      renderHtml({ ...DEMO, reels: frames('png') }, { batch: base }),
    );
    const picture = page.locator('.chosen .page-picture img');
    await expect.poll(() => page.evaluate("document.querySelector('.chosen .page-picture img').naturalWidth")).toBe(1);
    expect(await picture.getAttribute('alt')).toBe("The page that came as frame 25 (the vendor's 24), page 1");
    expect(await page.locator('.chosen .film img').count()).toBe(1);
    expect(complaints).toEqual([]);
    expect([...new Set(requests)].filter((request) => request !== address)).toEqual([`${base}/page%2025.png`]);
    expect(await accessibilityFaults(page)).toEqual([]);
    await close();
    // What no browser shows is a link, and the policy lets no picture in.
    const tiff = renderHtml({ ...DEMO, reels: frames('tif') }, { batch: base });
    expect(tiff).not.toMatch(/<img|img-src/);
  });

  it("keeps its signs apart where the reader's own colours are forced", async () => {
    const { page, close } = await show(browser, renderHtml(DEMO), { forcedColors: 'active' });
    const shapes: readonly string[] = await page.evaluate(`[...document.querySelectorAll('.overview .signs li i')].map((one) => {
      const own = getComputedStyle(one);
      return [getComputedStyle(one, '::after').content, own.borderTopStyle, own.borderTopWidth, own.borderRadius, one.textContent].join(' '); })`);
    expect(shapes.length).toBeGreaterThan(15);
    const signs = shapes.slice(0, 8);
    expect(new Set(signs).size).toBe(8);
    expect(new Set(shapes.slice(-4)).size).toBe(4);
    expect(await accessibilityFaults(page)).toEqual([]);
    await close();
  });

  // Chromium writes the outline of a page with the place of every heading: page object and height in points from the lower edge.
  it('prints on A4 and Letter: a first page to sign, at most five more for thirteen findings, no heading alone at the foot of a page', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    for (const format of ['A4', 'Letter']) {
      const pdf = (await page.pdf({ format, tagged: true, outline: true })).toString('latin1');
      const pages = [...pdf.matchAll(/\/Type \/Page\b/g)].length;
      expect([format, pages]).toEqual([format, 6]);
      const places = [...pdf.matchAll(/\/Dest \[(\d+) 0 R \/XYZ [\d.]+ ([\d.]+) 0\]/g)].map((match) => ({
        page: match[1],
        up: Number(match[2]),
      }));
      expect(places.length).toBeGreaterThan(25);
      // The lower margin is 14 mm, 40 points; a heading and one line of text below it need 24 more.
      expect(places.filter(({ up }) => up < 64)).toEqual([]);
      expect(new Set(places.map(({ page: of }) => of)).size).toBe(6);
    }
    await page.emulateMedia({ media: 'print' });
    for (const [at, finding] of DEMO.findings.entries()) {
      expect(await page.locator('.finding h3').nth(at).isVisible()).toBe(true);
      expect(await page.locator('.finding').nth(at).innerText()).toContain(finding.instruction);
    }
    for (const part of ['#tools', '#decide', '#list']) expect(await page.locator(part).isVisible()).toBe(false);
    // Of the film every issue with its signs and numbers; its frames one by one where somebody unfolded them.
    expect(await page.locator('.group .numbers:visible').count()).toBe(await page.locator('.group').count());
    expect(await page.locator('.group ul:visible').count()).toBe(0);
    await page.evaluate("document.querySelectorAll('.group button')[3].click()");
    expect(await page.locator('.group ul:visible').count()).toBe(1);
    await page.evaluate("document.querySelectorAll('.group button')[3].click()");
    expect(await page.locator('.signature').count()).toBe(2);
    expect(await page.evaluate("getComputedStyle(document.querySelector('.front')).breakAfter")).toBe('page');
    // Between the margins of Letter, the shorter of the two: 11 in less 26 mm; its width 8.5 in less 26 mm.
    await page.setViewportSize({ width: Math.floor(8.5 * 96 - (26 * 96) / 25.4), height: 900 });
    const height = Number(await page.evaluate("document.querySelector('.front').getBoundingClientRect().bottom + scrollY"));
    expect(height).toBeLessThan(11 * 96 - (26 * 96) / 25.4);
    // The tables of the first page stand beside or below each other, never upon each other.
    const boxes: (readonly [number, number, number, number])[] = await page.evaluate(
      "[...document.querySelectorAll('.front table')].map((one) => (({ left, top, right, bottom }) => [left, top, right, bottom])(one.getBoundingClientRect()))",
    );
    expect(boxes.length).toBeGreaterThan(2);
    const meet = boxes.flatMap(([left, top, right, bottom], at) =>
      boxes.slice(at + 1).filter(([l, t, r, b]) => left < r && l < right && top < b && t < bottom),
    );
    expect(meet).toEqual([]);
    await close();
  });

  it('holds two thousand findings on ten thousand frames', async () => {
    const result = longFilm();
    const report = renderHtml(result);
    expect(Buffer.byteLength(report)).toBeLessThan(16_000_000);
    const { page, complaints, close } = await show(browser, report);
    expect(await page.locator('.reel i').count()).toBe(10_000);
    // A long reel has one sign for several frames, and none is left out.
    expect(await page.locator('.bar > *').count()).toBeLessThanOrEqual(4 * 120);
    await page.locator('#find').fill('frame 4003');
    await expect.poll(() => page.locator('#shown').textContent()).toBe('1 of 2001 listed.');
    await page.locator('#reset').click();
    // What is chosen comes into view in the list, however far down.
    const list = await page.locator('#list').boundingBox();
    for (const at of [1990, 700, 1200]) {
      await page.evaluate(`location.hash = document.querySelectorAll('#list a')[${String(at)}].hash`);
      const row = page.locator('#list a[aria-current]');
      await expect.poll(() => row.locator('.number').textContent()).toBe(String(at + 1));
      const box = await row.boundingBox();
      expect(box!.y).toBeGreaterThanOrEqual(list!.y - 2);
      expect(box!.y + box!.height).toBeLessThanOrEqual(list!.y + list!.height + 2);
    }
    expect(complaints).toEqual([]);
    await close();
  });
});

describe('report.html as text', () => {
  it('is the same for the same result, and names no other place', () => {
    expect(renderHtml(DEMO)).toBe(renderHtml(DEMO));
    expect(renderHtml(DEMO)).not.toMatch(/https?:|\bsrc=|@import|url\(/);
  });

  it('links to the files of the batch where it is told the way there, and to nothing outside the batch', () => {
    const report = renderHtml(DEMO, { batch: '../return' });
    expect(report).toContain('href="../return/sn99089156/55901/1874090201/1874090201.xml"');
    expect(renderHtml(DEMO)).not.toContain('.xml"');
    const places = ['../secret.xml', '/etc/passwd', 'javascript:alert(1)', 'a//b.xml', 'a/?b#c.xml', 'a\\b.xml'].map((document) => ({
      document,
    }));
    const strange = renderHtml({ ...DEMO, findings: DEMO.findings.map((one) => ({ ...one, places })) }, { batch: '../return' });
    const hrefs = new Set([...strange.matchAll(/href="([^"#][^"]*)"/g)].map((match) => match[1]));
    expect([...hrefs].filter((href) => !href?.startsWith('../return/sn99') && href !== '../return/BATCH.xml')).toEqual([
      '../return/javascript%3Aalert(1)',
      '../return/a/%3Fb%23c.xml',
    ]);
  });

  it('has those links when the command knows where the batch is', () => {
    const folder = newFolder();
    writeFileSync(join(folder, 'findings.json'), renderJson(DEMO));
    const out = join(folder, 'made', 'results');
    mkdirSync(join(folder, 'a batch'));
    const { status } = reeltally([
      'render',
      join(folder, 'findings.json'),
      '--format',
      'html',
      '--batch',
      join(folder, 'a batch'),
      '--out',
      out,
    ]);
    expect(status).toBe(0);
    expect(readFileSync(join(out, 'report.html'), 'utf8')).toContain('href="./../../a%20batch/sn99089156/');
  });
});
