import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { renderHtml } from '../../src/report/html/index.js';
import { newFolder, reeltally, savedResult } from '../cli/command.js';
import { codestream, page as drawn, jp2, PAGE, pdf, WHOLE_PAGE } from '../pictures/files.js';
import { accessibilityFaults, browserOrReason, isOfAxe, launch, show } from './browser.js';
import { DEMO } from './results.js';

const found = browserOrReason();
const SHOWN = "document.querySelector('.chosen .sheet img')";

/** A finding of the demonstration whose four frames came, each as another kind of file, and one of which the only file is damaged. */
async function reported(...more: readonly string[]): Promise<{ readonly out: string; readonly stderr: string }> {
  const folder = newFolder();
  const batch = join(folder, 'batch');
  mkdirSync(batch);
  const kinds = new Map<string, readonly [name: string, bytes: Buffer]>([
    ['25', ['25.tif', await drawn().tiff().toBuffer()]],
    ['26', ['26.jp2', jp2(await codestream())]],
    ['27', ['27.pdf', pdf(WHOLE_PAGE, await drawn().jpeg().toBuffer())]],
    ['28', ['28.png', await drawn().png().toBuffer()]],
    ['24', ['24.jpg', await drawn().jpeg().toBuffer()]],
    ['90', ['90.jp2', jp2(await codestream()).subarray(0, 120)]],
  ]);
  for (const [name, bytes] of kinds.values()) writeFileSync(join(batch, name), bytes);
  const reels = DEMO.reels.map((reel) => ({
    ...reel,
    frames: reel.frames.map((frame) => {
      const name = kinds.get(frame.frame ?? '')?.[0];
      return { ...frame, files: name === undefined ? [] : [{ use: 'master', path: name }] };
    }),
  }));
  const out = join(folder, 'pages');
  const { status, stderr } = reeltally([
    ...['render', savedResult({ ...DEMO, reels }), '--format', 'html', '--batch', batch, '--out', out],
    ...more,
  ]);
  expect([status, stderr]).toEqual([
    0,
    expect.stringContaining(`Written to ${out}: report.html${more.length > 0 ? '' : ', pictures (5 pictures)'}.\n`),
  ]);
  return { out, stderr };
}

// Everything in this file needs the browser; browserOrReason has told who has none, and has thrown in CI.
describe.runIf('path' in found)('pictures of pages in report.html', { timeout: 180_000 }, () => {
  let browser: Browser;
  let page: Page;
  let out: string;
  let stderr: string;
  const requests: string[] = [];
  const complaints: string[] = [];
  beforeAll(async () => {
    browser = await launch('path' in found ? found.path : '');
    ({ out, stderr } = await reported());
    page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    page.on('request', (request) => requests.push(request.url()));
    page.on('console', (message) => {
      if (!isOfAxe(message.text())) complaints.push(message.text());
    });
    await page.goto(pathToFileURL(join(out, 'report.html')).href);
  });
  afterAll(async () => browser.close());

  /** What is drawn of the picture begins where its box begins, and the box can be moved to its end. */
  const wholeInItsBox = async (): Promise<void> => {
    await expect
      .poll(async () =>
        page.evaluate(`(() => {
          const box = document.querySelector('.chosen .sheet');
          box.scrollTo(0, 0);
          const [inner, outer] = [${SHOWN}.getBoundingClientRect(), box.getBoundingClientRect()];
          const ends = [inner.right - outer.left - box.scrollWidth, inner.bottom - outer.top - box.scrollHeight];
          return [inner.left - outer.left, inner.top - outer.top, ...ends.map((end) => Math.max(0, end))].map((gap) => Math.abs(Math.round(gap)) <= 1);
        })()`),
      )
      .toEqual([true, true, true, true]);
  };
  const shown = async (): Promise<string> => page.locator('.chosen .page-picture figcaption').innerText();

  it('are made of TIFF, JPEG 2000, PDF, PNG and JPEG, beside the page, at the height they can be read at', async () => {
    await expect.poll(async () => page.evaluate(`${SHOWN}.naturalHeight`)).toBe(1600);
    expect(await shown()).toBe(
      `As it came: frame 25 (the vendor's 24), page 1. 25.tif master, TIFF, 1,500 x 2,250 pixels in the file, shown here in grey and 1,600 pixels high.`,
    );
    expect(await page.locator('.chosen .film img').count()).toBe(5);
    await expect
      .poll(async () => page.evaluate("[...document.querySelectorAll('.chosen .film img')].map((one) => one.naturalHeight)"))
      .toEqual(Array.from({ length: 5 }, () => 1600));
    expect(PAGE.height).toBeGreaterThan(1600);
    expect(await accessibilityFaults(page)).toEqual([]);
  });

  it("are asked for in the page's own folder alone, and nothing complains", () => {
    const own = pathToFileURL(out).href;
    expect(requests.filter((one) => !one.startsWith(`${own}/`))).toEqual([]);
    expect(complaints).toEqual([]);
    expect(requests.length).toBeGreaterThan(4);
  });

  it('change by a key or a click to the page before or behind, grow and turn', async () => {
    await page.keyboard.press('.');
    expect(await shown()).toMatch(/^What came as frame 26 \(the vendor's 25\), page 2\. 26\.jp2 master, JPEG 2000, 1,500 x 2,250 pixels/);
    await page.keyboard.press('.');
    expect(await shown()).toMatch(/27\.pdf master, PDF, 1,500 x 2,250/);
    await page.keyboard.press(',');
    expect(await shown()).toMatch(/26\.jp2/);
    const height = async (): Promise<number> => page.evaluate(`${SHOWN}.getBoundingClientRect().height`);
    const before = await height();
    await page.keyboard.press('+');
    expect(await height()).toBeGreaterThan(before * 1.3);
    await page.keyboard.press('-');
    await page.keyboard.press('t');
    expect(await page.evaluate(`${SHOWN}.style.rotate`)).toBe('90deg');
    await wholeInItsBox();
    // at first the turned picture needs no moving to be seen from side to side
    expect(
      await page.evaluate("(({ scrollWidth, clientWidth }) => scrollWidth - clientWidth)(document.querySelector('.chosen .sheet'))"),
    ).toBe(0);
    await page.keyboard.press('+');
    await wholeInItsBox();
    await page.keyboard.press('-');
    await page.locator('.chosen .thumbnail').last().click();
    expect(await shown()).toMatch(/28\.png master, PNG/);
    expect(await page.evaluate(`${SHOWN}.style.rotate`)).toBe('');
    expect(page.url()).toMatch(/report\.html/);
  });

  it('go on from frame to frame where several have one file, such as a PDF of the issue', async () => {
    const batch = newFolder();
    writeFileSync(join(batch, 'issue.png'), await drawn().png().toBuffer());
    const files = [{ use: 'master', path: 'issue.png' }];
    const reels = DEMO.reels.map((reel) => ({
      ...reel,
      frames: reel.frames.map((frame) => ({ ...frame, files: /^2[5-8]$/.test(frame.frame ?? '') ? files : [] })),
    }));
    const one = await show(browser, renderHtml({ ...DEMO, reels }, { batch: pathToFileURL(batch).href }));
    const seen: (string | null)[] = [];
    for (const key of ['.', '.', '.', '.', ',']) {
      await one.page.keyboard.press(key);
      seen.push(await one.page.locator('.chosen .sheet img').getAttribute('alt'));
    }
    expect(seen.map((alt) => /frame (\d+)/.exec(alt ?? '')?.[1])).toEqual(['26', '27', '28', '28', '27']);
    await one.close();
  });

  it('give their places on paper to the signs, which stand there without pictures too', async () => {
    const shows = async (part: string): Promise<string[]> =>
      page.evaluate(`[...document.querySelectorAll('.chosen .film ${part}')].map((one) => getComputedStyle(one).display)`);
    expect(new Set(await shows('.thumbnail'))).toEqual(new Set(['block']));
    expect(new Set(await shows('.thumbnail + i'))).toEqual(new Set(['none']));
    await page.emulateMedia({ media: 'print' });
    expect(new Set(await shows('.thumbnail'))).toEqual(new Set(['none']));
    expect(await shows('.thumbnail + i')).toHaveLength(5);
    expect(await shows('.thumbnail + i')).not.toContain('none');
    expect(await page.evaluate("getComputedStyle(document.querySelector('.to-unfold')).display")).toBe('none');
    await page.emulateMedia({ media: null });
  });

  it('that cannot be made are named with the reason, where the finding stands and while they are made', async () => {
    const hidden = page.locator('.finding .page-picture', { hasText: 'No picture of 90.jp2' });
    expect(await hidden.count()).toBeGreaterThan(0);
    expect(await hidden.first().textContent()).toMatch(/^No picture of 90\.jp2: it cannot be decoded: .+\.$/);
    expect(stderr).toMatch(
      /1 of 6 pictures could not be made; the page says why in the place of each. The first is 90\.jp2: it cannot be decoded/,
    );
  });

  it('are told to be missing where the folder holds none of them, and the report is written all the same', () => {
    const [out, empty] = [join(newFolder(), 'pages'), newFolder()];
    const { status, stderr } = reeltally([...['render', savedResult(DEMO), '--format', 'html', '--batch', empty, '--out', out]]);
    expect([status, stderr]).toEqual([
      0,
      expect.stringContaining(`no pictures were made: ${empty} holds none of the files that the result names`),
    ]);
    expect(readFileSync(join(out, 'report.html'), 'utf8')).not.toContain('pictures/');
  });

  it('are left away on request, and the page asks for none', async () => {
    const without = await reported('--pictures', 'none');
    const html = readFileSync(join(without.out, 'report.html'), 'utf8');
    expect(html).not.toContain('pictures/');
    expect(dirname(join(without.out, 'report.html'))).toBe(without.out);
  });
});
