import type { Command } from 'commander';
import type { NewArguments } from './collation-new.js';

type Report = (work: Promise<number>) => Promise<void>;

/** The command that makes a record to fill in. */
export function addCollationNew(collation: Command, report: Report): void {
  collation
    .command('new')
    .description('make a sheet to fill in: a row for each issue that is to be expected, a calendar that colours itself, and how it is done')
    .option('--title <id>', 'the title, by its LCCN or the identifier of the programme')
    .option('--from-day <day>', 'the first day, such as 1879-01-04')
    .option('--to-day <day>', 'the last day')
    .option(
      '--pattern <days...>',
      'weekdays on which it came out, such as mon-sat or wed,sat; several, each with its span in front: 1879-01-01/1880-12-31=wed,sat 1881-01-01/..=mon-sat',
    )
    .option('--omit <days...>', 'days without an issue: 12-25 for every year, 1880-02-14 for one')
    .option('--pages <number>', 'pages that an issue usually has, such as 4; several as 4,8')
    .option('--per <what>', 'a row for each issue, or for each frame (one for each usual page)', 'issue')
    .option('--from <file>', 'an older record that is taken over, with all that it holds')
    .option('--out <file>', 'record.xlsx (a workbook), record.csv, or calendar.html (to print)')
    .option('--format <form>', 'xlsx, csv or html, where --out does not say it')
    .option('--replace', 'write over a file of that name')
    .option('--quiet', 'say nothing on the standard error but what went wrong')
    .action(async (options: NewArguments) =>
      report(import('./collation-new.js').then(({ collationNewCommand }) => collationNewCommand(options))),
    );
}
