import type { Command } from 'commander';
import type { AuditArguments } from './audit.js';
import type { NewArguments } from './dossier-new.js';

type Report = (work: Promise<number>) => Promise<void>;

const QUIET = ['--quiet', 'say nothing on the standard error but what went wrong'] as const;

/** The commands about the folder of one order. */
export function addDossierCommands(program: Command, report: Report): void {
  const dossier = program
    .command('dossier')
    .description('keep everything about one order in one folder; read "reeltally help dossier" first');
  dossier
    .command('new')
    .description('make the folder of one order; inside it the other commands find their files themselves')
    .argument('<folder>', 'a new folder')
    .option('--order <name>', 'what the order is called (the name of the folder when left out)')
    .option('--collation <files...>', 'the collation record, to be copied into it with its reading file')
    .option('--agreement <file>', 'what was ordered and on what terms, to be copied into it')
    .option('--profile <name or file>', 'how returns are laid out (recognised when left out)')
    .option('--at <time>', 'when this is said to have been (else SOURCE_DATE_EPOCH, else now)')
    .option(...QUIET)
    .action(async (folder: string, options: NewArguments) =>
      report(import('./dossier-new.js').then(({ dossierNewCommand }) => dossierNewCommand(folder, options))),
    );
  program
    .command('status')
    .description('say how an order stands: whose move it is, by which day, what is open, owed and overdue, and the next command')
    .argument('[folder]', 'the dossier, or a folder in it', '.')
    .option('--at <time>', 'on which day it is asked (else SOURCE_DATE_EPOCH, else today)')
    .action(async (folder: string, options: { readonly at?: string }) =>
      report(import('./status.js').then(({ statusCommand }) => statusCommand(folder, options))),
    );
  program
    .command('audit')
    .description('make every link of a dossier again, from the sources to the decision, and say which does not hold')
    .argument('[path]', 'the dossier, or one of its files', '.')
    .option('--batch <folders...>', 'what the vendor sent, to compare again (else where it lay when it was verified)')
    .option('--digest <digits>', 'the SHA-256 that stands on a signed page, or its first 16 digits or more, to be held against the journal')
    .option(...QUIET)
    .action(async (path: string, options: AuditArguments) =>
      report(import('./audit.js').then(({ auditCommand }) => auditCommand(path, options))),
    );
}
