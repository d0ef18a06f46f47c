import { CommanderError } from 'commander';
import { UserMistake } from '../read/mistake.js';
import { buildProgram } from './program.js';
import { COULD_NOT_RUN, FAULT } from './run-status.js';
import { hearStreamErrors, print, tell } from './streams.js';

/** Runs the command line `args` (without node and script) and gives the exit status. Nothing is thrown. */
export async function run(args: readonly string[]): Promise<number> {
  hearStreamErrors();
  // Whatever is thrown outside the way below, such as in a forgotten promise.
  process.on('uncaughtException', (error) => {
    tellFault(error);
    process.exitCode = FAULT;
    process.on('exit', () => {
      process.exitCode = FAULT;
    });
  });
  let status = 0;
  let helpText = '';
  const program = buildProgram(
    async (work) => {
      status = await work;
    },
    {
      writeOut: (text) => {
        helpText += text;
      },
      writeErr: tell,
    },
  );
  try {
    if (args.length === 0) {
      tell(program.helpInformation());
      tell('\nSay which command to run. Nothing was done.\n');
      return COULD_NOT_RUN;
    }
    await program.parseAsync([...args], { from: 'user' });
    return status;
  } catch (error) {
    if (!(error instanceof CommanderError)) return failed(error);
    // Help that was asked for, and the version, are results: a full disk must not pass for success. All else went to stderr.
    if (helpText === '') return COULD_NOT_RUN;
    return print(helpText).then(() => 0, failed);
  }
}

function failed(error: unknown): number {
  if (error instanceof UserMistake) {
    tell(`reeltally: ${error.message}\n`);
    return COULD_NOT_RUN;
  }
  tellFault(error);
  return FAULT;
}

function tellFault(error: unknown): void {
  const what = error instanceof Error ? (error.stack ?? error.message) : String(error);
  tell(`reeltally: this is a fault of the program, not of your files. Nothing was decided. Please report it with these lines:\n${what}\n`);
}
