import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect } from 'vitest';
import { MAIN, reeltally } from '../cli/command.js';
import type { Row } from './row.js';

/** What any command may use, whatever it is given. */
const MOST_CPU_SECONDS = 10;
const MOST_MEGABYTES = 512;

/** How a command ended, and what it used where that was measured. */
export interface Ending {
  readonly status: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
  readonly use: { readonly cpuSeconds: number; readonly megabytes: number } | null;
}

const ENVIRONMENT = { NO_COLOR: '1', SOURCE_DATE_EPOCH: '1930000000' };

/** The slow tests run every row as a user does and measure it; those of every day do where a row says something around the call. */
const isMeasured = process.env['ROWS'] === 'measured';

const folder = mkdtempSync(join(tmpdir(), 'reeltally-limits-'));
const meter = join(folder, 'meter.mjs');
// The peak of this very program (proc(5), VmHWM): what getrusage says begins with that of the process it was started from.
writeFileSync(
  meter,
  `import { readFileSync, writeFileSync } from 'node:fs';
import { isMainThread } from 'node:worker_threads';
if (isMainThread) process.on('exit', () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  let kilobytes = maxRSS;
  try {
    kilobytes = Number(/VmHWM:\\s*(\\d+)/.exec(readFileSync('/proc/self/status', 'utf8'))?.[1] ?? maxRSS);
  } catch {}
  writeFileSync(process.env.METER_FILE, JSON.stringify({ cpuSeconds: (userCPUTime + systemCPUTime) / 1e6, megabytes: kilobytes / 1024 }));
});
`,
);

let runs = 0;

/** What is said around a call: a line of the shell in which "$@" is the command, input for it, its environment. */
export interface Around {
  readonly shell?: string;
  readonly env?: Readonly<Record<string, string>>;
  readonly cwd?: string;
}

/** Runs the command: its status and its words, measured or, being quicker, in the thread of all calls. */
export async function limited(args: readonly string[], around?: Around): Promise<Ending> {
  if (isMeasured || around !== undefined) return measured(args, around);
  return { ...reeltally(args, ENVIRONMENT), use: null };
}

/** Runs the command as a process; a loop without end is ended by the system (POSIX ulimit -t) a little above what is allowed. */
export async function measured(args: readonly string[], { shell = '"$@"', env = {}, cwd }: Around = {}): Promise<Ending> {
  runs += 1;
  const file = join(folder, `use-${String(process.pid)}-${String(runs)}.json`);
  const command = [process.execPath, '--import', pathToFileURL(meter).href, MAIN, ...args];
  const child = spawn('sh', ['-c', `ulimit -t ${String(MOST_CPU_SECONDS + 5)}; ${shell}`, 'sh', ...command], {
    env: { ...process.env, ...ENVIRONMENT, METER_FILE: file, ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
    ...(cwd === undefined ? {} : { cwd }),
  });
  const chunks: { readonly out: Buffer[]; readonly err: Buffer[] } = { out: [], err: [] };
  child.stdout.on('data', (chunk: Buffer) => chunks.out.push(chunk));
  child.stderr.on('data', (chunk: Buffer) => chunks.err.push(chunk));
  const ended = await new Promise<Pick<Ending, 'status' | 'signal'>>((done) =>
    child.on('close', (status, signal) => {
      done({ status, signal });
    }),
  );
  const use = JSON.parse(readUse(file)) as NonNullable<Ending['use']>;
  return { ...ended, use, stdout: Buffer.concat(chunks.out).toString(), stderr: Buffer.concat(chunks.err).toString() };
}

/** A process that was killed has told nothing. */
function readUse(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return '{"cpuSeconds": 0, "megabytes": 0}';
  }
}

/** All that was said, as one line. */
export function said({ stdout, stderr }: Ending): string {
  return `${stdout}\n${stderr}`.replaceAll(/\s+/g, ' ');
}

/** Holds an ending against what must be: the status, what is said, and that no more was used than any command may. */
export function expectEnding(
  ending: Ending,
  { status, says, killed = false }: Pick<Row, 'status' | 'says'> & { readonly killed?: boolean },
): void {
  // The beginning of what was said is shown where the status is another.
  expect([ending.status, ending.signal, ending.status === status ? '' : said(ending).slice(0, 1000)]).toEqual([status, null, '']);
  expect(said(ending)).toContain(says);
  if (ending.use !== null) {
    expect(ending.use.cpuSeconds > 0).toBe(!killed);
    expect(ending.use.cpuSeconds).toBeLessThan(MOST_CPU_SECONDS);
    expect(ending.use.megabytes).toBeLessThan(MOST_MEGABYTES);
  }
  if (!killed) expect(said(ending)).not.toMatch(/fault of the program|\bat \S+\.js:\d/);
}
