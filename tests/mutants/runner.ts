/** Asks a server to run tests, and ends it where it does not answer in time. */
import { type ChildProcess, fork } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Answered, Asked } from './server.js';

/** What a test that runs this has in its environment says which of its workers it is; the tests of the server are not in that one. */
const OWN_ENVIRONMENT = Object.fromEntries(
  Object.entries(process.env).filter(([name]) => !/^(?:VITEST|TEST|NODE_ENV|MODE|DEV|PROD|SSR|BASE_URL|TINYPOOL)/.test(name)),
);

export interface Runner {
  /** What the tests said; null where they had not ended in time. */
  readonly ask: (asked: Asked, longest: number) => Promise<Answered | null>;
  readonly end: () => void;
}

export function runnerOf(root: string, config: string): Runner {
  const folder = mkdtempSync(join(tmpdir(), 'reeltally-mutants-'));
  let child: ChildProcess | null = null;
  const started = async (): Promise<ChildProcess> =>
    new Promise((done, failed) => {
      const made = fork(fileURLToPath(new URL('server.ts', import.meta.url)), [root, config, join(folder, 'reached.txt')], {
        execArgv: ['--import', 'tsx'],
        cwd: root,
        env: OWN_ENVIRONMENT,
        stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
      });
      made.once('message', () => {
        made.removeAllListeners('exit');
        done(made);
      });
      made.once('exit', () => failed(new Error('The tests could not be started.')));
    });
  const stop = (): void => {
    child?.kill('SIGKILL');
    child = null;
  };
  return {
    ask: async (asked, longest) => {
      const server = (child ??= await started());
      return new Promise((done) => {
        const answer = (answered: Answered | null): void => {
          clearTimeout(timer);
          server.removeAllListeners('message').removeAllListeners('exit');
          if (answered === null) stop();
          done(answered);
        };
        const timer = setTimeout(() => answer(null), longest);
        server.once('message', (answered: Answered) => answer(answered));
        // A process that breaks (out of memory) has not come to the end of the tests either.
        server.once('exit', () => answer(null));
        server.send(asked);
      });
    },
    end: () => {
      stop();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
