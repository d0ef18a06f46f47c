import { basename, resolve } from 'node:path';
import { parentPort } from 'node:worker_threads';
import { verifyInto } from '../acts/verify-into.js';
import { UserMistake } from '../read/mistake.js';
import { jsonLine, summaryOf } from '../report/jsonl.js';
import type { BatchOutcome, BatchTask } from './batch-task.js';
import { statusOf } from './exit-status.js';
import { COULD_NOT_RUN, FAULT } from './run-status.js';
import { surroundings } from './surroundings.js';

// One batch at a time in a thread of its own, with a memory of its own: what goes wrong with one does not reach the others.
parentPort?.on('message', (task: BatchTask) => {
  void outcomeOf(task).then((outcome) => parentPort?.postMessage(outcome));
});

async function outcomeOf({ job, wish }: BatchTask): Promise<BatchOutcome> {
  const { files, folder, out } = job;
  const { formats, replace, ifChanged, at } = wish;
  const remarks: string[] = [];
  const around = {
    ...surroundings({ quiet: true, ...(at === undefined ? {} : { at }) }),
    say: (text: string, kind: 'progress' | 'remark') => {
      if (kind === 'remark') remarks.push(text);
    },
  };
  try {
    const { result, written } = await verifyInto(files, { folder, formats, replace, ifChanged }, around);
    const status = statusOf(result.verdict.decision);
    const unchanged = written.length === 0 ? { unchanged: true } : {};
    return { status, ran: true, line: jsonLine({ ...summaryOf(result), out, status, ...unchanged }), remarks };
  } catch (error) {
    return { ...failedOutcome(job, error), remarks };
  }
}

function failedOutcome({ files: { batch }, out }: BatchTask['job'], error: unknown): BatchOutcome {
  const isMistake = error instanceof UserMistake;
  const status = isMistake ? COULD_NOT_RUN : FAULT;
  const says = isMistake ? error.message : error instanceof Error ? (error.stack ?? error.message) : String(error);
  return {
    status,
    ran: false,
    line: jsonLine({ batch: basename(resolve(batch[0] ?? '')), verdict: null, says, out, status }),
    remarks: [],
  };
}
