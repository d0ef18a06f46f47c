import { pathToFileURL } from 'node:url';
import { MessageChannel, receiveMessageOnPort, Worker } from 'node:worker_threads';

/** How a command ended and what it said. */
export interface Ending {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** So long may a command take: one that waits for what never comes would be waited for without end. */
const LONGEST = 120_000;

// Plain JavaScript, because Node starts no thread in TypeScript. The entry file is evaluated anew for each call, its parts stay.
const THREAD = `
const { workerData: { main, environment, port, flag } } = require('node:worker_threads');
const said = { stdout: [], stderr: [] };
for (const name of ['stdout', 'stderr'])
  process[name].write = (chunk, ...rest) => {
    said[name].push(Buffer.from(chunk));
    const done = rest.find((one) => typeof one === 'function');
    if (done !== undefined) process.nextTick(done, null);
    return true;
  };
let calls = 0;
port.on('message', async ({ args, env }) => {
  for (const name of Object.keys(process.env)) delete process.env[name];
  Object.assign(process.env, environment, env);
  process.argv = [process.execPath, main, ...args];
  process.exitCode = undefined;
  said.stdout = [];
  said.stderr = [];
  calls += 1;
  let broken = null;
  await import(main + '?call=' + calls).catch((error) => { broken = String(error && error.stack || error); });
  for (const event of ['uncaughtException', 'exit']) process.removeAllListeners(event);
  for (const stream of [process.stdout, process.stderr]) stream.removeAllListeners('error');
  port.postMessage({ broken, status: process.exitCode ?? 0, stdout: Buffer.concat(said.stdout), stderr: Buffer.concat(said.stderr) });
  Atomics.store(flag, 0, 1);
  Atomics.notify(flag, 0);
});
`;

/**
 * The built command in a thread that stays, so that most of what a call costs, starting Node and reading the program, is paid once for all calls.
 * The thread has no terminal and no working folder of its own: what depends on these, on a pipe, a signal or the end of the process needs a process.
 */
export function threadOf(
  main: string,
  environment: NodeJS.ProcessEnv,
): (args: readonly string[], env: Readonly<Record<string, string>>) => Ending {
  const { port1: here, port2: port } = new MessageChannel();
  const flag = new Int32Array(new SharedArrayBuffer(4));
  const thread = new Worker(THREAD, {
    eval: true,
    workerData: { main: pathToFileURL(main).href, environment, port, flag },
    transferList: [port],
  });
  thread.unref();
  here.unref();
  return (args, env) => {
    Atomics.store(flag, 0, 0);
    here.postMessage({ args, env });
    if (Atomics.wait(flag, 0, 0, LONGEST) === 'timed-out') throw new Error(`reeltally ${args.join(' ')} does not come to an end.`);
    const { message } = receiveMessageOnPort(here) as {
      readonly message: {
        readonly broken: string | null;
        readonly status: number;
        readonly stdout: Uint8Array;
        readonly stderr: Uint8Array;
      };
    };
    const { broken, status, stdout, stderr } = message;
    if (broken !== null) throw new Error(broken);
    return { status, stdout: Buffer.from(stdout).toString(), stderr: Buffer.from(stderr).toString() };
  };
}
