import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';

/** What a process needed. */
export interface Cost {
  readonly seconds: number;
  /** Highest resident memory, where the system tells it. */
  readonly mebibytes: number;
}

/** Runs a command to its end, its output thrown away, and tells what it needed. */
export function peakOf(command: string, args: readonly string[]): Promise<Cost> {
  return new Promise((resolve, reject) => {
    const start = performance.now();
    const child = spawn(command, args, { stdio: 'ignore' });
    let kibibytes = 0;
    const watch = setInterval(() => {
      try {
        const status = readFileSync(`/proc/${String(child.pid)}/status`, 'utf8');
        kibibytes = Math.max(kibibytes, Number(/VmHWM:\s*(\d+)/.exec(status)?.[1] ?? 0));
      } catch {
        // The process is gone, or the system has no /proc.
      }
    }, 20);
    child.on('error', reject);
    child.on('close', () => {
      clearInterval(watch);
      resolve({ seconds: (performance.now() - start) / 1000, mebibytes: kibibytes / 1024 });
    });
  });
}
