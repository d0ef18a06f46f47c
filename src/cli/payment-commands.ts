import type { Command } from 'commander';
import type { DecideArguments } from './decide.js';
import type { InvoiceArguments } from './invoice.js';
import type { DrawArguments } from './sample-draw.js';
import type { JudgeArguments } from './sample-judge.js';

type Report = (work: Promise<number>) => Promise<void>;

const QUIET = ['--quiet', 'say nothing on the standard error but what went wrong'] as const;
const REPLACE = ['--replace', 'write over results that are there already'] as const;

/** The commands between verdict and payment: spot checks, the invoice, the decision. */
export function addPaymentCommands(program: Command, report: Report): void {
  const sample = program.command('sample').description('look at some pages before payment, drawn so that anyone can draw them again');
  addDraw(sample, report);
  addJudge(sample, report);
  addInvoice(program, report);
  addDecide(program, report);
}

function addDraw(sample: Command, report: Report): void {
  sample
    .command('draw')
    .description('say what a plan protects against; with --fix write list and plan down, then with --seed draw and write the worksheets')
    .argument('[findings.json]', 'a result that verify saved; in a dossier the newest')
    .option('--batch <folder>', 'what the vendor sent, so that the worksheet links to its files')
    .option('--pictures <where>', 'folder: small pictures of the pages beside the worksheet, from the batch; none: no pictures', 'folder')
    .option('--lot <lot>', 'what is accepted or rejected as one: reel (each by itself, the default) or batch')
    .option('--reel <number>', 'one of the reels alone')
    .option('--unit <unit>', "page, for facts of a page; issue, for what its pages share (the agreement's when left out)")
    .option(
      '--plan <plan>',
      "limiting-quality (one lot by itself), table (a series of lots, MIL-STD-105E) or share (the agreement's when left out)",
    )
    .option('--limit <percent>', 'limiting-quality: the share of wrong units that must hardly ever pass')
    .option('--risk <chance>', 'limiting-quality: the highest chance that such a lot passes, such as 0.05')
    .option('--accept <count>', 'limiting-quality, share: wrong units to put up with in the sample (0)')
    .option('--level <level>', 'table: inspection level I, II, III, S-1, S-2, S-3 or S-4')
    .option('--aql <percent>', 'table: acceptance quality limit, as the tables head their columns')
    .option('--severity <severity>', 'table: normal, tightened or reduced (normal)')
    .option('--ledger <file>', 'table: the lots so far, from which the switching rules find the severity')
    .option('--reduced-agreed', 'table: reduced inspection is wanted, work is steady, and the limit numbers were dropped')
    .option('--resumed', 'table: the vendor mended what had stopped the inspection')
    .option('--percent <percent>', 'share: the share of the lot to draw (10)')
    .option('--at-least <count>', 'share: but at least so many (10)')
    .option('--stated <percent>', 'share: the error rate whose chance to pass is stated')
    .option('--minutes <count>', 'how much time there is: what can be learned in it is said beside the plan')
    .option('--seconds-per-unit <count>', 'how long one look takes (30 for a page, 120 for an issue)')
    .option('--fix', 'write list and plan down, before the dice are thrown')
    .option('--seed <text>', 'what the draw is made from: at least 24 digits from dice, thrown after list and plan were fixed')
    .option('--reason <text>', 'why another plan than the agreed one, or why a list is drawn from again; it is kept')
    .option('--at <time>', 'when this is said to have been (else SOURCE_DATE_EPOCH, else now)')
    .option('--extras <groups...>', 'look at these too, uncounted: record, neighbours, findings, ends, splices, or none (all but findings)')
    .option('--out <folder>', 'write the draw and its worksheets into this folder')
    .option(...REPLACE)
    .option(...QUIET)
    .action(async (path: string | undefined, options: DrawArguments) =>
      report(import('./sample-draw.js').then(({ drawCommand }) => drawCommand(path, options))),
    );
}

function addJudge(sample: Command, report: Report): void {
  sample
    .command('judge')
    .description('judge answered worksheets: does the lot pass, and how many may be wrong')
    .argument('[draw.json]', 'the draw; in a dossier every one that was answered')
    .option('--worksheet <files...>', 'the answers, of one person or several: files that the page saved, or sheets filled in')
    .option('--by <name>', 'who looked, where a worksheet does not say')
    .option('--as-they-stand', 'in a dossier: judge although those who looked disagree; what one of them answers no counts as no')
    .option('--out <folder>', 'write files into this folder instead of printing')
    .option('--format <name>', 'what is printed: text or json')
    .option(...REPLACE)
    .option(...QUIET)
    .action(async (path: string | undefined, options: JudgeArguments) =>
      report(import('./sample-judge.js').then(({ judgeCommand }) => judgeCommand(path, options))),
    );
}

function addInvoice(program: Command, report: Report): void {
  program
    .command('invoice')
    .description('hold invoices against what is due, to the smallest coin; read "reeltally help invoice" first')
    .argument('[files...]', 'the invoices: CSV, XLSX or ODS')
    .option(
      '--findings <findings.json...>',
      'results that verify saved, of several deliveries and batches; their agreement names classes and prices (in a dossier all)',
    )
    .option('--account <file>', 'the account of the order: read, and written again; made where there is none')
    .option('--out <folder>', 'write files into this folder instead of printing')
    .option('--format <name>', 'what is printed: text, csv or json')
    .option(...REPLACE)
    .option(...QUIET)
    .action(async (paths: string[], options: InvoiceArguments) =>
      report(import('./invoice.js').then(({ invoiceCommand }) => invoiceCommand(paths, options))),
    );
}

function addDecide(program: Command, report: Report): void {
  program
    .command('decide')
    .description('write down what a person decides about a delivery and its money, on what grounds and when')
    .option('--findings <findings.json>', 'a result that verify saved (in a dossier the newest)')
    .option('--sample <sample.json...>', 'judged spot checks, each with its draw and worksheet beside it')
    .option('--account <file>', 'the account of the order, which is written again')
    .requiredOption('--delivery-decision <decision>', 'accept, accept-with-corrections, return-for-rework or put-off')
    .option('--release <amount>', 'what is released, tax included, such as 1234.50 (nothing when left out)')
    .option('--also <lines...>', 'lines that the agreement does not know and that are released too, by their words or as INVOICE:LINE')
    .option('--reason <text>', 'why: needed against the advice, without the agreed sample, and for more or less than is due')
    .requiredOption('--by <name>', 'who decides')
    .option('--second <name>', 'who stands for it too: needed against the advice, without the agreed sample, and for more than is due')
    .requiredOption('--on <day>', 'on which day, such as 2026-01-31')
    .option('--at <time>', 'when this is said to have been, for the journal of a dossier (else SOURCE_DATE_EPOCH, else now)')
    .option('--out <folder>', 'write files into this folder instead of printing')
    .option('--format <name>', 'what is printed: text, json or html')
    .option(...REPLACE)
    .option(...QUIET)
    .action(async (options: DecideArguments) => report(import('./decide.js').then(({ decideCommand }) => decideCommand(options))));
}
