// Writes the pictures of report.html that the README shows into reports/. Run by hand when the page looks otherwise: the points of a picture differ from
// machine to machine, so nothing compares them. Needs Chromium on PATH.
import { statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const LARGEST = 180_000;

const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: ['--no-sandbox'] });
const address = pathToFileURL(join(root, 'reports', 'report.html')).href;
for (const [name, anchor] of [
  ['report-verdict.png', ''],
  ['report-film.png', '#film'],
]) {
  const page = await browser.newPage({ viewport: { width: 1180, height: 720 } });
  await page.goto(address + anchor);
  // What comes into view is laid out only then.
  await page.waitForTimeout(300);
  const path = join(root, 'reports', name);
  await page.screenshot({ path });
  const { size } = statSync(path);
  if (size > LARGEST) throw new Error(`${name} has ${size} bytes, more than ${LARGEST}: show less of the page.`);
}
await browser.close();
