import type { Command } from 'commander';

/** Two calls or more of each command, by its words; what stands at the end of its help. */
const EXAMPLES: Readonly<Record<string, readonly string[]>> = {
  '': [
    'reeltally demo',
    'reeltally verify --collation reel-12.csv --batch batch_pilot',
    'reeltally verify --collation record.json --batch batch_pilot --out results',
    'reeltally render results/findings.json --format csv',
  ],
  verify: [
    'reeltally verify --collation reel-12.xlsx --batch batch_pilot --agreement agreement.json --out results',
    'reeltally verify --collation reel-12.xlsx --batch batch_pilot_2 --agreement agreement.json --earlier results/findings.json --out results-2',
    'reeltally verify --batches batches.jsonl --if-changed --replace',
  ],
  render: [
    'reeltally render results/findings.json --format csv xlsx --out for-the-vendor',
    'reeltally render results/findings.json --format html --batch batch_pilot --out pages',
  ],
  'profile show': ['reeltally profile show linked-maps > our-papers.json', 'reeltally profile show issue-mets'],
  'profile try': ['reeltally profile try our-papers.json --batch batch_pilot', 'reeltally profile try issue-mets --batch batch_pilot'],
  'collation new': [
    'reeltally collation new --title sn99018200 --from-day 1879-01-01 --to-day 1880-12-31 --pattern wed,sat --omit 12-25 --pages 4 --out lantern.xlsx',
    'reeltally collation new --from old-sheet.xlsx --pattern mon-sat --pages 8 --per frame --out lantern-frames.xlsx',
  ],
  'collation read': ['reeltally collation read reel-12.xlsx', 'reeltally collation read reel-12.csv reel-13.csv --yes'],
  'collation check': [
    'reeltally collation check reel-12.xlsx',
    'reeltally collation check reel-12.xlsx --explained reel-12.explained.csv --out check',
  ],
  'collation convert': [
    'reeltally collation convert reel-12.csv --to frame-sheet --out reel-12.xlsx',
    'reeltally collation convert reel-12.xlsx --to json --out record',
  ],
  'collation instructions': [
    'reeltally collation instructions reel-12.xlsx --agreement agreement.json --out to-the-vendor',
    'reeltally collation instructions reel-12.xlsx --format html --out to-the-vendor --replace',
  ],
  'collation expected': [
    'reeltally collation expected reel-12.xlsx --agreement agreement.json --out expected',
    'reeltally collation expected record.json --profile issue-mets --out expected',
  ],
  ledger: [
    'reeltally ledger results/findings.json results-2/findings.json',
    'reeltally ledger batch-*/findings.json --vendor "Skerry Imaging, Port Hallam" --out ledger',
  ],
  'sample draw': [
    'reeltally sample draw results/findings.json',
    'reeltally sample draw results/findings.json --fix --out spot',
    'reeltally sample draw results/findings.json --batch batch_pilot --seed 354631155611216362461535 --out spot',
  ],
  'sample judge': [
    'reeltally sample judge spot/draw.json --worksheet worksheet.json --by "Ada Pell"',
    'reeltally sample judge spot/draw.json --worksheet spot/worksheet.xlsx --by "Ada Pell" --out spot',
  ],
  invoice: [
    'reeltally invoice invoice.csv --findings results/findings.json',
    'reeltally invoice q-17.xlsx --findings results/findings.json results-2/findings.json --account account.json',
  ],
  decide: [
    'reeltally decide --findings results/findings.json --delivery-decision return-for-rework --by "Ada Pell" --on 2031-03-04',
    'reeltally decide --findings results-2/findings.json --sample spot/sample.json --account account.json --delivery-decision accept --release 84.10 --by "Ada Pell" --on 2031-04-04 --out decision',
  ],
  'dossier new': [
    'reeltally dossier new tolmouth --collation reel-12.xlsx --agreement agreement.json',
    'reeltally dossier new tolmouth-2 --order "Tolmouth, second half" --collation record --profile issue-mets',
  ],
  status: ['reeltally status', 'reeltally status orders/tolmouth'],
  audit: ['reeltally audit', 'reeltally audit orders/tolmouth --batch /media/drive/batch_pilot'],
  demo: ['reeltally demo', 'reeltally demo tried-again'],
  help: ['reeltally help verify', 'reeltally help record'],
  completion: [
    'reeltally completion bash > ~/.local/share/bash-completion/completions/reeltally',
    'reeltally completion fish > ~/.config/fish/completions/reeltally.fish',
  ],
};

const EXIT_STATUS = '\nExit status: 0 accepted, 1 corrections or rework, 2 cannot decide, 3 could not run, 4 a fault of the program.';

/** The end of the help of a command, by its words without the name of the program; empty where it only gathers others. */
export function helpEnd(words: string): string {
  const examples = EXAMPLES[words];
  if (examples === undefined) return '';
  return `\nExamples:\n${examples.map((line) => `  ${line}\n`).join('')}${words === '' ? `${EXIT_STATUS}\n` : ''}`;
}

/** Puts the examples at the end of the help of a command and of all below it. */
export function addExamples(command: Command, words: readonly string[] = []): void {
  const end = helpEnd(words.join(' '));
  if (end !== '') command.addHelpText('after', end.trimEnd());
  for (const below of command.commands) addExamples(below, [...words, below.name()]);
}
