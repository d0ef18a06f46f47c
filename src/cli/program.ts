import { Command, type OutputConfiguration } from 'commander';
import { programVersion } from '../acts/program-version.js';
import type { CheckArguments } from './collation-check.js';
import type { ConvertArguments } from './collation-convert.js';
import type { ExpectedArguments } from './collation-expected.js';
import type { InstructionsArguments } from './collation-instructions.js';
import type { ReadArguments } from './collation-read.js';
import type { DemoArguments } from './demo.js';
import { addDossierCommands } from './dossier-commands.js';
import { addExamples } from './examples.js';
import { FORMAT_NAMES } from './formats.js';
import type { LedgerArguments } from './ledger.js';
import { addCollationNew } from './new-command.js';
import { addPaymentCommands } from './payment-commands.js';
import type { RenderArguments } from './render.js';
import { print } from './streams.js';
import { TOPIC_NAMES } from './topic-names.js';
import type { VerifyArguments } from './verify.js';

/** Takes the exit status of a command that is under way. */
export type Report = (work: Promise<number>) => Promise<void>;

const FORMAT_HELP = `one or more of ${FORMAT_NAMES.join(', ')}`;

/** The command line: every command with its options. What a command does is loaded when it is called, so that help comes at once. */
export function buildProgram(report: Report, output: OutputConfiguration): Command {
  const program = new Command('reeltally')
    .description("Compares what a vendor sent back from newspaper microfilm with the library's own collation record, and says what to do.")
    .version(programVersion(), '--version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    // Set before the commands are added, which take both over.
    .exitOverride()
    .configureOutput(output)
    .showHelpAfterError('Add --help to see what the command takes.');
  addVerify(program, report);
  addRender(program, report);
  addProfile(program, report);
  addCollation(program, report);
  addLedger(program, report);
  addPaymentCommands(program, report);
  addDossierCommands(program, report);
  addDemo(program, report);
  addHelp(program, report);
  addCompletion(program, report);
  addExamples(program);
  return program;
}

function addVerify(program: Command, report: Report): void {
  program
    .command('verify')
    .description('compare what the vendor sent with the collation record and give a verdict')
    .option('--collation <files...>', 'the collation record: JSON, CSV, XLSX or ODS files, or a folder of them')
    .option('--batch <folders...>', 'what the vendor sent; a later folder replaces documents of an earlier one')
    .option('--profile <name or file>', 'how the return is laid out (recognised when left out)')
    .option('--agreement <file>', 'what was ordered and on what terms')
    .option('--help-agreement', 'print what an agreement can say, and end')
    .option(
      '--rulings <files...>',
      'what the library decided about findings: rulings.xlsx filled in (or CSV, ODS), or the file that the report saves',
    )
    .option('--answers <files...>', 'the list of discrepancies as it came back from the vendor, with the answers')
    .option('--earlier <findings.json>', 'the result of the delivery before this one')
    .option('--sent <file>', 'the record as it was sent (sent-record.json): who followed it is not charged with what was changed since')
    .option('--other <findings.json...>', 'results of other batches, to find what was delivered twice')
    .option('--delivery <number>', 'which sending of the batch this is (1, or one more than the earlier result says)')
    .option('--received <day>', 'when the batch arrived, such as 2026-01-31')
    .option('--at <time>', 'when the run is said to have been (else SOURCE_DATE_EPOCH, else now)')
    .option('--read-text', 'read the page text too')
    .option('--fixity', 'hold the files against the digests that the documents and a bag state')
    .option('--out <folder>', 'write files into this folder instead of printing')
    .option('--format <names...>', `${FORMAT_HELP}; text when printed, all of them into a folder`)
    .option('--replace', 'write over results that are there already')
    .option(
      '--batches <list or folder>',
      'verify many batches, two at a time, and print a line of JSON for each ("reeltally help batches")',
    )
    .option('--if-changed', 'do nothing where the result in the folder is that of the same files and of this program')
    .option('--exit <verdict or ran>', 'ran: end with 0 whenever a result was written, whatever the verdict (verdict when left out)')
    .option('--quiet', 'say nothing on the standard error but what went wrong')
    .action(async (options: VerifyArguments) => report(import('./verify.js').then(({ verifyCommand }) => verifyCommand(options))));
}

function addProfile(program: Command, report: Report): void {
  const profile = program.command('profile').description('describe how a return is laid out; read "reeltally help profiles" first');
  profile
    .command('show')
    .description("print a built-in profile, complete, to start a profile of the library's own from")
    .argument('<name>', 'a built-in profile')
    .action(async (name: string) => report(import('./profile.js').then(({ profileShow }) => profileShow(name))));
  profile
    .command('try')
    .description('say what a profile finds where in a return, and what it does not find')
    .argument('<profile>', 'a file, or the name of a built-in profile')
    .requiredOption('--batch <folders...>', 'what the vendor sent')
    .action(async (file: string, options: { readonly batch: readonly string[] }) =>
      report(import('./profile.js').then(({ profileTry }) => profileTry(file, options))),
    );
}

function addHelp(program: Command, report: Report): void {
  program
    .helpCommand(false)
    .command('help')
    .description(`print the help for a command, or a topic: ${TOPIC_NAMES.join(', ')}`)
    .argument('[words...]', 'a command such as verify, or a topic')
    .action(async (words: string[]) =>
      report(
        import('./help.js').then(async ({ helpText }) => {
          await print(helpText(program, words));
          return 0;
        }),
      ),
    );
}

function addCompletion(program: Command, report: Report): void {
  program
    .command('completion')
    .description('print what a shell needs to complete commands and options')
    .argument('<shell>', 'bash, zsh or fish')
    .action(async (shell: string) => report(import('./completion.js').then(({ completionCommand }) => completionCommand(program, shell))));
}

function addCollation(program: Command, report: Report): void {
  const collation = program.command('collation').description('work on the collation record itself, before the film goes out');
  addCollationNew(collation, report);
  collation
    .command('read')
    .description("say how the library's own workbook is read, ask what only the library can tell, and keep the answers in a reading file")
    .argument('[files...]', 'the workbook or CSV files: XLSX, ODS or CSV, or a folder of them; in a dossier its own')
    .option('--yes', 'take what is unmistakable unasked')
    .option('--quiet', 'say nothing on the standard error but what went wrong')
    .action(async (files: string[], options: ReadArguments) =>
      report(import('./collation-read.js').then(({ collationReadCommand }) => collationReadCommand(files, options))),
    );
  collation
    .command('check')
    .description('say what does not fit in the record by its own regularity: days, numbers, pages, frames, duplicates')
    .argument('[files...]', 'the collation record: JSON, CSV, XLSX or ODS files, or a folder of them; in a dossier its own')
    .option(
      '--explained <file>',
      'items that are as they should be, CSV or the list as XLSX filled in (else NAME.explained.csv beside the record)',
    )
    .option('--format <names...>', 'one or more of text, json, xlsx; text when printed, all of them into a folder')
    .option('--out <folder>', 'write record-check.txt, .json and .xlsx into this folder')
    .option('--replace', 'write over a check that is there already')
    .option('--quiet', 'say nothing on the standard error but what went wrong')
    .action(async (files: string[], options: CheckArguments) =>
      report(import('./collation-check.js').then(({ collationCheckCommand }) => collationCheckCommand(files, options))),
    );
  collation
    .command('convert')
    .description('write the record in another form, without loss')
    .argument('<files...>', 'the collation record: JSON, CSV, XLSX or ODS files, or a folder of them')
    .requiredOption('--to <form>', 'json, frame-sheet or issue-sheet')
    .option('--out <path>', 'write files into this folder, or sheets into this .xlsx workbook (JSON may also be printed)')
    .option('--replace', 'write over files of the same names')
    .option('--quiet', 'say nothing on the standard error but what went wrong')
    .action(async (files: string[], options: ConvertArguments) =>
      report(import('./collation-convert.js').then(({ convertCommand }) => convertCommand(files, options))),
    );
  collation
    .command('instructions')
    .description('write the sheet that goes with the film to the vendor: what differs from "scan all, deliver the pages in order"')
    .argument('[files...]', 'the collation record: JSON, CSV, XLSX or ODS files, or a folder of them; in a dossier its own')
    .option('--out <folder>', 'write instructions.html, .xlsx and .csv, and the record as sent-record.json, into this folder')
    .option('--agreement <file>', 'what was ordered')
    .option('--profile <name or file>', 'how the return will be laid out')
    .option('--format <names...>', 'one or more of html, xlsx, csv; all of them when left out')
    .option('--replace', 'write over instructions, and a record as sent, that are there already')
    .option('--quiet', 'say nothing on the standard error but what went wrong')
    .action(async (files: string[], options: InstructionsArguments) =>
      report(import('./collation-instructions.js').then(({ instructionsCommand }) => instructionsCommand(files, options))),
    );
  collation
    .command('expected')
    .description('write the return that would be right: in numbers, as a list, and as XML, so that a vendor can compare before shipping')
    .argument('<files...>', 'the collation record: JSON, CSV, XLSX or ODS files, or a folder of them')
    .requiredOption('--out <folder>', 'write expected.txt, .csv and .xlsx, and the documents as expected-return, into this folder')
    .option('--agreement <file>', 'what was ordered and on what terms')
    .option('--profile <name or file>', 'how the return will be laid out; XML is written for the built-in issue-mets and page-mods')
    .option('--format <names...>', 'one or more of text, csv, xlsx; all of them when left out')
    .option('--replace', 'write over what is there already')
    .option('--quiet', 'say nothing on the standard error but what went wrong')
    .action(async (files: string[], options: ExpectedArguments) =>
      report(import('./collation-expected.js').then(({ expectedCommand }) => expectedCommand(files, options))),
    );
}

function addLedger(program: Command, report: Report): void {
  program
    .command('ledger')
    .description('tell the deliveries of a batch in order, and the batches of a vendor over time')
    .argument('[files...]', 'saved results, samples, decisions and accounts, or dossiers and folders of them; in a dossier all of it')
    .option('--from <list>', 'read the names of these from a list: a path on each line, from the folder of the list')
    .option('--vendor <name>', 'the batches of this vendor alone')
    .option('--format <names...>', 'one or more of text, csv, html, xlsx, json; text when printed, all of them into a folder')
    .option('--at <time>', 'on which day it is told (else SOURCE_DATE_EPOCH, else today)')
    .option('--out <folder>', 'write files into this folder instead of printing')
    .option('--replace', 'write over a ledger that is there already')
    .option('--quiet', 'say nothing on the standard error but what went wrong')
    .action(async (files: string[], options: LedgerArguments) =>
      report(import('./ledger.js').then(({ ledgerCommand }) => ledgerCommand(files, options))),
    );
}

function addDemo(program: Command, report: Report): void {
  program
    .command('demo')
    .description('write an invented reel with its record and a faulty return, and verify it')
    .argument('[folder]', 'a new folder', 'demo')
    .option('--replace', 'make the demonstration again where it already is')
    .option('--quiet', 'say nothing on the standard error but what went wrong')
    .action(async (folder: string, options: DemoArguments) =>
      report(import('./demo.js').then(({ demoCommand }) => demoCommand(folder, options))),
    );
}

function addRender(program: Command, report: Report): void {
  program
    .command('render')
    .description('write the reports again from a saved result')
    .argument('<findings.json>', 'a result that verify saved')
    .requiredOption('--format <names...>', FORMAT_HELP)
    .option('--batch <folder>', 'what the vendor sent, for links to its files in the HTML report and pictures of its pages')
    .option('--pictures <where>', 'folder: small pictures of the pages beside the report, from the batch; none: no pictures', 'folder')
    .option('--sample <sample.json...>', 'judged spot checks: what they found wrong stands in the list for the vendor too')
    .option('--out <folder>', 'write files into this folder instead of printing')
    .option('--replace', 'write over results that are there already')
    .option('--quiet', 'say nothing on the standard error but what went wrong')
    .action(async (path: string, options: RenderArguments) =>
      report(import('./render.js').then(({ renderCommand }) => renderCommand(path, options))),
    );
}
