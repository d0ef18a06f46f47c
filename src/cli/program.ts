import { readFileSync } from 'node:fs';
import { Command, type OutputConfiguration } from 'commander';
import { FORMAT_NAMES } from './formats.js';
import type { RenderArguments } from './render.js';

/** Takes the exit status of a command that is under way. */
export type Report = (work: Promise<number>) => Promise<void>;

const FORMAT_HELP = `one or more of ${FORMAT_NAMES.join(', ')}`;

/** The version in package.json, which stands two folders above this file in src and in dist alike. */
export function programVersion(): string {
  const found: unknown = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
  return typeof found === 'object' && found !== null && 'version' in found ? String(found.version) : 'unknown';
}

/** The command line: every command with its options. What a command does is loaded when it is called, so that help comes at once. */
export function buildProgram(report: Report, output: OutputConfiguration): Command {
  const program = new Command('reeltally')
    .description('Compares what a vendor sent back from newspaper microfilm with the library’s own collation record, and says what to do.')
    .version(programVersion(), '--version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .addHelpText('after', EXAMPLES)
    // Set before the commands are added, which take both over.
    .exitOverride()
    .configureOutput(output)
    .showHelpAfterError('Add --help to see what the command takes.');
  addRender(program, report);
  return program;
}

const EXAMPLES = `
Examples:
  reeltally demo
  reeltally verify --collation reel-12.csv --batch batch_pilot
  reeltally verify --collation record.json --batch batch_pilot --out results
  reeltally render results/findings.json --format csv

Exit status: 0 accepted, 1 corrections or rework, 2 cannot decide, 3 could not run, 4 a fault of the program.`;

function addRender(program: Command, report: Report): void {
  program
    .command('render')
    .description('write the reports again from a saved result')
    .argument('<findings.json>', 'a result that verify saved')
    .requiredOption('--format <names...>', FORMAT_HELP)
    .option('--out <folder>', 'write files into this folder instead of printing')
    .option('--replace', 'write over results that are there already')
    .option('--quiet', 'say nothing on the standard error but what went wrong')
    .action(async (path: string, options: RenderArguments) =>
      report(import('./render.js').then(({ renderCommand }) => renderCommand(path, options))),
    );
}
