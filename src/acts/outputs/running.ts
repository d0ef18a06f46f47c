import { kill } from 'node:process';

/** Whether a process of this number runs on this machine. */
export function isRunning(id: number): boolean {
  try {
    // Signal 0 only asks (POSIX kill(2)).
    kill(id, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}
