import { accessSync, constants, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import axe from 'axe-core';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome'];

function executable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** Chromium where PATH has it; null where it does not. */
export const CHROMIUM: string | null =
  (process.env.PATH ?? '')
    .split(delimiter)
    .flatMap((folder) => NAMES.map((name) => join(folder, name)))
    .find(executable) ?? null;

/** Where a machine has no browser its owner is told; the machine that decides about changes (CI) must have one. */
export function browserOrReason(): { readonly path: string } | { readonly reason: string } {
  if (CHROMIUM !== null) return { path: CHROMIUM };
  const reason =
    'Chromium is not on PATH: the tests that look at report.html in a browser were not run. Install it, for instance with apt-get install chromium.';
  if (process.env.CI !== undefined && process.env.CI !== '') throw new Error(reason);
  process.stderr.write(`${reason}\n`);
  return { reason };
}

export async function launch(path: string): Promise<Browser> {
  // The sandbox of Chromium does not work for root, as whom tests often run in a container.
  return chromium.launch({ executablePath: path, args: ['--no-sandbox'] });
}

/** A page that shows a report from the disk, with what went wrong in it and what it asked for. */
export interface Shown {
  readonly page: Page;
  readonly complaints: readonly string[];
  readonly requests: readonly string[];
  /** Dialogs that came up, by type. */
  readonly asked: readonly string[];
  readonly address: string;
  readonly close: () => Promise<void>;
}

/** axe-core asks for the styles of what the page has put away, and Chromium remarks on that. */
export const isOfAxe = (text: string): boolean => text.startsWith('Rendering was performed in a subtree hidden by content-visibility');

export async function show(browser: Browser, report: string, options: BrowserContextOptions = {}, hash = ''): Promise<Shown> {
  const path = join(mkdtempSync(join(tmpdir(), 'reeltally-page-')), 'report.html');
  writeFileSync(path, report);
  const address = pathToFileURL(path).href;
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  const complaints: string[] = [];
  const requests: string[] = [];
  const asked: string[] = [];
  page.on('console', (message) => {
    if (!isOfAxe(message.text())) complaints.push(`${message.type()}: ${message.text()}`);
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => requests.push(request.url()));
  page.on('dialog', (dialog) => {
    // A browser asks before a page is left; everything else would be the page's own doing.
    if (dialog.type() !== 'beforeunload') complaints.push(`dialog: ${dialog.message()}`);
    asked.push(dialog.type());
    void dialog.accept();
  });
  await page.goto(address + hash);
  return { page, complaints, requests, asked, address, close: () => context.close() };
}

/** Loads a page again as a person does, not in the same instant as the last decision: Chromium hands what a page stores to another process a moment later. */
export async function reload(page: Page): Promise<void> {
  await page.waitForTimeout(1200);
  await page.reload();
}

/** What axe-core finds against a page as it stands: rule and first element. All its rules, WCAG 2.2 AA and best practice among them. */
export async function accessibilityFaults(page: Page): Promise<readonly string[]> {
  const results: unknown = await page.evaluate(
    `(() => { ${axe.source}; return axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }).then((done) => [done.passes.length, ...done.violations.map((one) => one.id + ': ' + one.nodes[0].html)]); })()`,
  );
  const [passes, ...faults] = results as readonly [number, ...string[]];
  if (passes < 10) throw new Error(`axe-core looked at next to nothing: ${String(passes)} rules passed.`);
  return faults;
}
