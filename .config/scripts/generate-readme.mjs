// Fills the blocks of README.md and of the help that stand between `<!-- begin NAME -->` and `<!-- end NAME -->` with what the program itself says.
// With --check it writes nothing and fails where a block is out of date.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const { status } = spawnSync(process.execPath, [join(root, '.config', 'scripts', 'ready.mjs')], { stdio: 'inherit' });
if (status !== 0) process.exit(1);

const built = (path) => import(pathToFileURL(join(root, 'dist', path)).href);
const { EXIT_STATUSES } = await built('catalogue/exit-statuses.js');

const cell = (text) => String(text).replaceAll('|', '\\|').replaceAll('\n', ' ');
// Columns as wide as their longest cell, as the formatter lays out Markdown.
const table = (heads, rows) => {
  const all = [heads, ...rows].map((row) => row.map(cell));
  const widths = heads.map((_, at) => Math.max(3, ...all.map((row) => row[at].length)));
  const line = (row) => `| ${row.map((text, at) => text.padEnd(widths[at])).join(' | ')} |`;
  return [line(all[0]), line(widths.map((width) => '-'.repeat(width))), ...all.slice(1).map(line)].join('\n');
};

// The summary of the demonstration in few lines: the verdict and why, the first finding up to what to do, and the end.
function firstRun() {
  const lines = readFileSync(join(root, 'reports', 'summary.txt'), 'utf8').trimEnd().split('\n');
  const at = (head) => lines.findIndex((line) => line.trim().startsWith(head));
  return quoted([lines.slice(0, at('Counts')), lines.slice(at('1. '), at('Likely cause')).concat(''), lines.slice(at('Verdict:'))]);
}

// The demonstration's vendor corrects every second mistake and sends the batch again; both results, and what the second says of the first.
async function twoDeliveries() {
  const { DEMO_MISTAKES, demoAgreement, demoRecord, demoReturn } = await import('../../tests/forge/demonstration.ts');
  const { verification } = await built('acts/verify.js');
  const { quietly } = await built('acts/surroundings.js');
  const { render } = await built('report/index.js');
  const folder = mkdtempSync(join(tmpdir(), 'reeltally-'));
  const write = (name, text) => {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };
  const record = write('record.json', JSON.stringify(demoRecord()));
  const agreement = write('agreement.json', JSON.stringify(demoAgreement()));
  const verified = async (name, corrected, more) => {
    const { files, plan } = demoReturn('faulty', corrected);
    for (const file of files) write(join(name, plan.batch, file.path), file.text);
    const batch = [join(folder, name, plan.batch)];
    const result = await verification({ collation: [record], agreement, batch, ...more }, quietly(more.received));
    return { result, path: write(join(name, 'findings.json'), await render(result, 'json')) };
  };
  const first = await verified('first', [], { received: '2031-03-01' });
  const every = DEMO_MISTAKES.filter((_, at) => at % 2 === 0);
  const second = await verified('second', every, { received: '2031-04-01', earlier: first.path });
  const { readLedgerFiles } = await built('acts/inputs/ledger-files.js');
  const { ledgerOf } = await built('history/ledger.js');
  const { ledgerText } = await built('report/ledger/text.js');
  const ledger = ledgerText(ledgerOf(await readLedgerFiles([first.path, second.path], '2031-04-10', quietly('2031-04-10')), null), 80);
  const summary = await render(second.result, 'text');
  rmSync(folder, { recursive: true });
  return { summary: summary.split('\n'), ledger: ledger.trimEnd().split('\n') };
}
const { summary, ledger } = await twoDeliveries();
const from = (lines, head) => lines.findIndex((line) => line.startsWith(head));
const quoted = (parts) => `\`\`\`text\n${parts.flatMap((lines, at) => [...(at === 0 ? [] : ['[...]', '']), ...lines]).join('\n').trimEnd()}\n\`\`\``;
const between = (lines, head, end) => lines.slice(from(lines, head), from(lines, end));
/** What the command prints; the exit status is part of what is shown elsewhere. */
const printed = (...args) => {
  const { stdout, stderr } = spawnSync(process.execPath, [join(root, 'dist', 'cli', 'main.js'), ...args], { cwd: root, encoding: 'utf8' });
  if (stdout === '') throw new Error(stderr);
  return `\`\`\`text\n${stdout}\`\`\``;
};

const INVOICE = `line,class,quantity,unit price,amount,invoice number,currency
1,page,109,0.32,34.88,B-204,EUR
2,held back,4,0.06,0.24,B-204,EUR
,total,,,35.12,B-204,EUR
`;

// An invoice for the demonstration and what comes of it.
function invoiceExample() {
  const folder = mkdtempSync(join(tmpdir(), 'reeltally-'));
  const path = join(folder, 'invoice.csv');
  writeFileSync(path, INVOICE);
  const text = printed('invoice', path, '--findings', join('reports', 'findings.json'));
  rmSync(folder, { recursive: true });
  return `\`\`\`csv\n${INVOICE}\`\`\`\n\n${text}`;
}

const README = 'README.md';
const help = (topic) => join('src', 'help', `${topic}.md`);
const blocks = [
  [README, 'first run', firstRun],
  [help('formats'), 'exit statuses', () => table(['status', 'means'], EXIT_STATUSES.map((entry) => [entry.status, entry.means]))],
  [help('invoice'), 'invoice', invoiceExample],
  [help('ledger'), 'second delivery', () => quoted([between(summary, 'Since the earlier', 'Counts'), between(summary, 'Corrected since', 'Not checked')])],
  [help('ledger'), 'ledger', () => quoted([ledger.slice(0, from(ledger, '  Open after') + 3), ledger.slice(from(ledger, 'Faults for'))])],
  [help('sampling'), 'spot check', () => printed('sample', 'draw', join('reports', 'findings.json'))],
];

const stale = new Set();
for (const [file, name, content] of blocks) {
  const path = join(root, file);
  const text = readFileSync(path, 'utf8');
  const begin = `<!-- begin ${name} -->`;
  const start = text.indexOf(begin);
  const end = text.indexOf(`<!-- end ${name} -->`);
  if (start < 0 || end < start) throw new Error(`${file} has no block ${name}.`);
  const filled = `${text.slice(0, start)}${begin}\n${content()}\n${text.slice(end)}`;
  if (filled === text) continue;
  stale.add(file);
  if (!process.argv.includes('--check')) writeFileSync(path, filled);
}
if (stale.size > 0 && process.argv.includes('--check')) {
  process.stderr.write(`${[...stale].join(', ')} repeats what the program says, and is out of date: run \`npm run generate\`.\n`);
  process.exit(1);
}
