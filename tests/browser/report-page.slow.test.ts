import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
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

  it('says everything without a script, and offers nothing that would need one', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO), { javaScriptEnabled: false });
    const text = await page.locator('main').innerText();
    for (const finding of DEMO.findings) {
      expect(text).toContain(finding.says);
      expect(text).toContain(finding.instruction);
    }
    expect(await page.locator('#tools').isVisible()).toBe(false);
    expect(await page.locator('fieldset.ruling').first().isVisible()).toBe(false);
    await page.locator('label', { hasText: 'large' }).click();
    expect(await page.locator('#cells-large').isChecked()).toBe(true);
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
    const { page, close } = await show(browser, renderHtml(DEMO));
    const letters = await page.locator('.reel i').allTextContents();
    const frames = DEMO.reels.flatMap((reel) => reel.frames);
    expect(letters.join('')).toBe(frames.map((frame) => frame.kind.charAt(0).toUpperCase()).join(''));
    expect(await page.locator('.drift').allTextContents()).toEqual(['from frame 21 numbers came −1']);
    const issue = page.locator('.group', { hasText: '1879-09-02' });
    await issue.locator('summary').click();
    expect((await issue.locator('li').allInnerTexts()).join()).toMatch(
      /Frames 25 to 28: pages 1 to 4; came as 24 to 27; differ; findings 1, 5/,
    );
    await close();
  });

  it('prints on A4 and Letter: the page to sign comes first and alone, then every finding, folded or not', async () => {
    const { page, close } = await show(browser, renderHtml(DEMO));
    await page.getByRole('button', { name: 'Fold all', exact: true }).click();
    for (const format of ['A4', 'Letter']) {
      const pdf = await page.pdf({ format, tagged: true });
      expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
      expect([...pdf.toString('latin1').matchAll(/\/Type \/Page\b/g)].length).toBeGreaterThan(5);
    }
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.finding .says').first().isVisible()).toBe(true);
    expect(await page.locator('#tools').isVisible()).toBe(false);
    expect(await page.locator('.signature').count()).toBe(2);
    expect(await page.evaluate("getComputedStyle(document.querySelector('.front')).breakAfter")).toBe('page');
    // Between the margins of Letter, the shorter of the two: 11 in less 33 mm; its width 8.5 in less 30 mm.
    await page.setViewportSize({ width: Math.floor(8.5 * 96 - (30 * 96) / 25.4), height: 900 });
    const height = Number(await page.evaluate("document.querySelector('.front').getBoundingClientRect().bottom + scrollY"));
    expect(height).toBeLessThan(11 * 96 - (33 * 96) / 25.4);
    await close();
  });

  it('stays quick with ten thousand frames', async () => {
    const result = longFilm();
    const report = renderHtml(result);
    expect(Buffer.byteLength(report)).toBeLessThan(3_000_000);
    const { page, complaints, close } = await show(browser, report);
    expect(await page.locator('.reel i').count()).toBe(10_000);
    await page.getByLabel('Search').fill('frame 4003');
    expect(await page.locator('#shown').textContent()).toBe('1 of 201 findings shown.');
    await page.locator('#cells-small').check();
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
    expect([...hrefs].filter((href) => !href?.startsWith('../return/sn99'))).toEqual([
      '../return/javascript%3Aalert(1)',
      '../return/a/%3Fb%23c.xml',
    ]);
  });

  it('has those links when the command knows where the batch is', () => {
    const folder = newFolder();
    writeFileSync(join(folder, 'findings.json'), renderJson(DEMO));
    const out = join(folder, 'made', 'results');
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
