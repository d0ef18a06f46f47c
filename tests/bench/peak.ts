import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import type { Readable } from 'node:stream';

/** What a process needed, with all that it started. */
export interface Cost {
  /** By the clock. */
  readonly seconds: number;
  /** Of all processors, in the program and in the system for it. */
  readonly cpu: number;
  /** Highest resident memory of one process, where the system tells it. */
  readonly mebibytes: number;
}

// A shell counts what its children took (POSIX, special built-in "times"), which Node does not tell of a child of its own.
const COUNTED = '"$@" & echo $! >&3; wait $!; times >&3';

/** Runs a command to its end, its output thrown away, and tells what it needed. */
export function peakOf(command: string, args: readonly string[]): Promise<Cost> {
  return new Promise((resolve, reject) => {
    const start = performance.now();
    const child = spawn('sh', ['-c', COUNTED, 'sh', command, ...args], { stdio: ['ignore', 'ignore', 'ignore', 'pipe'] });
    let said = '';
    (child.stdio[3] as Readable).setEncoding('utf8').on('data', (piece: string) => {
      said += piece;
    });
    let kibibytes = 0;
    const watch = setInterval(() => {
      kibibytes = Math.max(kibibytes, highest(Number(said.split('\n')[0])));
    }, 20);
    child.on('error', reject);
    child.on('close', () => {
      clearInterval(watch);
      const cpu = [...(said.trim().split('\n').at(-1) ?? '').matchAll(/(\d+)m([\d.]+)s/g)];
      resolve({
        seconds: (performance.now() - start) / 1000,
        cpu: cpu.reduce((sum, [, minutes, seconds]) => sum + Number(minutes) * 60 + Number(seconds), 0),
        mebibytes: kibibytes / 1024,
      });
    });
  });
}

/** Highest resident memory of a process and of those that it started, in KiB; 0 where the system does not tell. */
function highest(pid: number): number {
  try {
    const own = Number(/VmHWM:\s*(\d+)/.exec(readFileSync(`/proc/${String(pid)}/status`, 'utf8'))?.[1] ?? 0);
    const children = readFileSync(`/proc/${String(pid)}/task/${String(pid)}/children`, 'utf8')
      .trim()
      .split(' ');
    return Math.max(own, ...children.filter((one) => one !== '').map((one) => highest(Number(one))));
  } catch {
    // The process is gone, or the system has no /proc.
    return 0;
  }
}
