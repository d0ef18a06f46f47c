import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Findings } from '../../src/model/findings.js';
import { renderJson } from '../../src/report/json.js';
import { threadOf } from './in-thread.js';

/** The built command; `npm test` builds it first. */
export const MAIN = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

export interface Outcome {
  readonly status: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
}

// A test must not depend on what the person running it has set.
const SET_BY_PEOPLE: ReadonlySet<string> = new Set(['NO_COLOR', 'FORCE_COLOR', 'SOURCE_DATE_EPOCH']);
const ENVIRONMENT = Object.fromEntries(Object.entries(process.env).filter(([name]) => !SET_BY_PEOPLE.has(name)));

let thread: ReturnType<typeof threadOf> | null = null;

/** Runs the command and waits for it, in a thread that is kept for all calls; `reeltallyProcess` where it must be a process of its own. */
export function reeltally(args: readonly string[], env: Record<string, string> = {}): Outcome {
  thread ??= threadOf(MAIN, ENVIRONMENT);
  return { ...thread(args, env), signal: null };
}

/** Runs the command as a process and waits for it. */
export function reeltallyProcess(args: readonly string[], env: Record<string, string> = {}, cwd?: string): Outcome {
  const { status, signal, stdout, stderr } = spawnSync(process.execPath, [MAIN, ...args], {
    encoding: 'utf8',
    env: { ...ENVIRONMENT, ...env },
    maxBuffer: 1 << 28,
    ...(cwd === undefined ? {} : { cwd }),
  });
  return { status, signal, stdout, stderr };
}

/** Runs a line of the POSIX shell in which `"$NODE" "$MAIN"` is the command. */
export function shell(line: string, cwd?: string): Outcome {
  const { status, signal, stdout, stderr } = spawnSync('sh', ['-c', line], {
    encoding: 'utf8',
    env: { ...ENVIRONMENT, NODE: process.execPath, MAIN },
    maxBuffer: 1 << 28,
    ...(cwd === undefined ? {} : { cwd }),
  });
  return { status, signal, stdout, stderr };
}

/** Starts the command without waiting. */
export function started(args: readonly string[]) {
  return spawn(process.execPath, [MAIN, ...args], { env: ENVIRONMENT, stdio: ['ignore', 'pipe', 'pipe'] });
}

/** A new empty folder. */
export function newFolder(): string {
  return mkdtempSync(join(tmpdir(), 'reeltally-test-'));
}

/** A saved result in a file of a new folder. */
export function savedResult(result: Findings): string {
  const path = join(newFolder(), 'findings.json');
  writeFileSync(path, renderJson(result));
  return path;
}
