import { basename, resolve } from 'node:path';
import { Worker } from 'node:worker_threads';
import { type BatchJob, batchJobs, type ForAll } from '../acts/inputs/batch-list.js';
import { jsonLine } from '../report/jsonl.js';
import type { BatchOutcome, BatchWish } from './batch-task.js';
import { FAULT } from './run-status.js';
import { print, tell } from './streams.js';

/** So many batches are verified at the same time. */
const AT_ONCE = 2;

/** Verifies the batches of a list or folder, two at a time, prints a line of JSON for each in the order of the list, and gives what became of each. Throws UserMistake where the list itself cannot be used. */
export async function verifyBatches(path: string, all: ForAll, wish: BatchWish): Promise<readonly BatchOutcome[]> {
  const jobs = await batchJobs(path, all);
  const outcomes: BatchOutcome[] = [];
  let next = 0;
  let printed = 0;
  let printing = Promise.resolve();
  const take = async (): Promise<void> => {
    const lane = newLane(wish);
    for (let at = next++; ; at = next++) {
      const job = jobs[at];
      if (job === undefined) break;
      const outcome = await lane.run(job);
      outcomes[at] = outcome;
      if (!wish.quiet) for (const remark of outcome.remarks) tell(`reeltally: ${job.out}: ${remark}\n`);
      // In the order of the list, whichever is done first.
      for (let ready = outcomes[printed]; ready !== undefined; ready = outcomes[printed]) {
        printed += 1;
        const { line } = ready;
        printing = printing.then(async () => print(line));
      }
    }
    await lane.end();
  };
  await Promise.all(Array.from({ length: Math.min(AT_ONCE, jobs.length) }, take));
  await printing;
  return outcomes;
}

interface Lane {
  readonly run: (job: BatchJob) => Promise<BatchOutcome>;
  readonly end: () => Promise<void>;
}

/** A worker that does one batch after the other; where it breaks, a new one goes on with the next. */
function newLane(wish: BatchWish): Lane {
  let kept: Worker | null = null;
  const run = async (job: BatchJob): Promise<BatchOutcome> => {
    const worker = (kept ??= new Worker(new URL('./batch-worker.js', import.meta.url)));
    return new Promise((done) => {
      const broken = (reason: string): void => {
        kept = null;
        worker.removeAllListeners();
        done(brokenOutcome(job, reason));
      };
      worker.removeAllListeners();
      worker.once('message', (outcome: BatchOutcome) => {
        done(outcome);
      });
      worker.once('error', (error: Error) => {
        broken(error.message);
      });
      worker.once('exit', (code) => {
        broken(`the work ended by itself (${String(code)})`);
      });
      worker.postMessage({ job, wish });
    });
  };
  const end = async (): Promise<void> => {
    kept?.removeAllListeners();
    await kept?.terminate();
  };
  return { run, end };
}

/** Memory that is not enough ends a thread in the middle of its work. */
function brokenOutcome({ files: { batch }, out }: BatchJob, reason: string): BatchOutcome {
  const says = `The work on this batch broke off: ${reason}.`;
  return {
    status: FAULT,
    ran: false,
    line: jsonLine({ batch: basename(resolve(batch[0] ?? '')), verdict: null, says, out, status: FAULT }),
    remarks: [],
  };
}
