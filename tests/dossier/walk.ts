import { cpSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { shell } from '../cli/command.js';
import { demoReturn } from '../forge/demonstration.js';
import { answered } from './order.js';

/** One thing to do in a walk: a command with what the help says that it prints, or a step by hand. */
export type Step = { readonly command: string; readonly prints: readonly string[] } | { readonly byHand: string };

/** The steps of the walk in the help, in their order. */
export function stepsOf(help: string): readonly Step[] {
  const steps: { command: string; prints: string[] }[] = [];
  const all: Step[] = [];
  for (const line of help.split('\n')) {
    const command = /^ {4}\$ reeltally (.+)$|^ {4}\$ (cd .+)$/.exec(line);
    if (command !== null) {
      const step = { command: command[1] ?? command[2] ?? '', prints: [] };
      steps.push(step);
      all.push(step);
    } else if (line.startsWith('By hand:')) all.push({ byHand: line });
    else if (/^ {4}/.test(line)) steps.at(-1)?.prints.push(line.slice(4));
    // An empty line of an output has lost its indentation.
    else if (line === '') steps.at(-1)?.prints.push('');
  }
  return all;
}

/** What lies on the desk before the walk begins. */
export function walkDesk(): string {
  const desk = mkdtempSync(join(tmpdir(), 'reeltally-walk-'));
  const demonstration = fileURLToPath(new URL('../../fixtures/demonstration', import.meta.url));
  cpSync(join(demonstration, 'record'), join(desk, 'record'), { recursive: true });
  cpSync(join(demonstration, 'agreement.json'), join(desk, 'agreement.json'));
  for (const [drive, which] of [
    ['drive-1', 'faulty'],
    ['drive-2', 'agreeing'],
  ] as const) {
    const { files, plan } = demoReturn(which);
    for (const { path, text } of files) {
      const to = join(desk, drive, plan.batch, path);
      mkdirSync(dirname(to), { recursive: true });
      writeFileSync(to, text);
    }
  }
  writeFileSync(join(desk, 'invoice-17.csv'), INVOICE);
  return desk;
}

/** The vendor bills two pages more than came. */
const INVOICE = `invoice number,currency,class,quantity,unit price,amount
SK-17,EUR,page,109,0.32,34.88
SK-17,EUR,held back,5,0.05,0.25
`;

/** Runs the steps one after the other, as a person types them; gives what each command printed, line by line. The day is the last that a command named. */
export function walked(steps: readonly Step[], desk: string): readonly (readonly string[])[] {
  let at = desk;
  let today = '2031-03-01';
  return steps.flatMap((step) => {
    if ('byHand' in step) {
      byHand(step.byHand, at);
      return [];
    }
    const { command } = step;
    today = / (?:--received|--on) (\d{4}-\d{2}-\d{2})/.exec(command)?.[1] ?? today;
    if (command.startsWith('cd ')) {
      at = join(at, command.slice(3));
      return [[]];
    }
    const { stdout } = shell(`SOURCE_DATE_EPOCH=$(date -u -d ${today} +%s) "$NODE" "$MAIN" ${command} 2>&1`, at);
    return [stdout.trimEnd().split('\n')];
  });
}

/** What a person does with her hands: answers a worksheet, with yes. */
function byHand(text: string, at: string): void {
  const folder = /`([^`]*spot[^`]*)`/.exec(text)?.[1];
  if (folder !== undefined) answered(join(at, folder, 'worksheet.csv'));
}

/** The help, as it stands. */
export const HELP = readFileSync(fileURLToPath(new URL('../../src/help/dossier.md', import.meta.url)), 'utf8');
