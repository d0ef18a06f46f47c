import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

const PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome', '/usr/bin/google-chrome-stable'];

/** A browser to test in: the one that CHROMIUM names, else one in the usual places; null where there is none. */
export function chromiumPath(): string | null {
  const named = process.env['CHROMIUM'];
  return [...(named === undefined ? [] : [named]), ...PLACES].find((path) => existsSync(path)) ?? null;
}

/** Starts the browser. A container's root user has no sandbox. Throws where there is none. */
export async function startBrowser(): Promise<Browser> {
  const executablePath = chromiumPath();
  if (executablePath === null) throw new Error('No Chromium was found. Install it, or name it in the environment variable CHROMIUM.');
  return chromium.launch({ executablePath, args: ['--no-sandbox'] });
}
