import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import { newDossier } from '../../src/acts/dossier/new.js';
import { drawnInDossier } from '../../src/acts/dossier/sample-draw.js';
import { type DossierLotWish, fixedInDossier } from '../../src/acts/dossier/sample-plan.js';
import type { Surroundings } from '../../src/acts/surroundings.js';
import type { Findings } from '../../src/model/findings.js';
import { demoAgreement, demoRecord, demoReturn } from '../forge/demonstration.js';

/** A folder with what a library and its vendor have before a dossier is made: record, agreement, two drives. */
export interface Desk {
  readonly desk: string;
  readonly record: string;
  readonly agreement: string;
  /** The batch of each drive: the first is faulty, the second as ordered. */
  readonly drives: readonly [string, string];
}

/** Puts the demonstration on a desk. */
export function laidOut(): Desk {
  const desk = mkdtempSync(join(tmpdir(), 'reeltally-desk-'));
  const save = (name: string, text: string): string => {
    mkdirSync(dirname(join(desk, name)), { recursive: true });
    writeFileSync(join(desk, name), text);
    return join(desk, name);
  };
  const drive = (name: string, which: 'faulty' | 'agreeing'): string => {
    const { files, plan } = demoReturn(which);
    for (const { path, text } of files) save(join(name, plan.batch, path), text);
    return join(desk, name, plan.batch);
  };
  return {
    desk,
    record: save('record/record.json', JSON.stringify(demoRecord())),
    agreement: save('agreement.json', JSON.stringify(demoAgreement())),
    drives: [drive('drive-1', 'faulty'), drive('drive-2', 'agreeing')],
  };
}

/** Surroundings of Ilse at her desk on this day, who remembers what is said to her. */
export function ilse(now: string, said: string[] = []): Surroundings {
  return {
    say: (text, kind) => {
      if (kind === 'remark') said.push(text);
    },
    signal: new AbortController().signal,
    who: 'ilse',
    host: 'desk-3',
    now,
    clock: () => `${now.slice(0, 10)}T09:00:00Z`,
  };
}

/** A new dossier of the demonstration's order on this desk. */
export async function begun({ desk, record, agreement }: Desk): Promise<string> {
  const folder = join(desk, 'order');
  await newDossier({ folder, collation: [record], agreement }, ilse('2031-03-01'));
  return folder;
}

/** Fixes list and plan, then draws by this seed; gives the folder of the draw on disk. */
export async function drawnHere(root: string, seed: string, wish: DossierLotWish, now: string, reason = ''): Promise<string> {
  await fixedInDossier(root, wish, reason, ilse(now));
  const { folder } = await drawnInDossier(root, seed, ilse(now));
  return join(root, folder);
}

/** Answers every question of a worksheet with yes, in the sheet itself. */
export function answered(worksheet: string): void {
  const [heads = [], ...rows] = parse(readFileSync(worksheet, 'utf8'), { bom: true });
  const [from, to] = [heads.indexOf('right date'), heads.indexOf('note')];
  const filled = rows.map((row) => row.map((cell, at) => (at >= from && at < to ? 'yes' : cell)));
  writeFileSync(worksheet, stringify([heads, ...filled]));
}

/** The lines of an invoice for what came back in a delivery. */
export function invoiceOf(result: Findings): string {
  const classes = result.agreement.terms.classes;
  const lines = result.counts.classes.map(({ class: name, returned }) => {
    const price = classes.find((one) => one.class === name)?.unitPrice ?? '0';
    return `${name},${String(returned)},${price},${(returned * Number(price)).toFixed(2)}`;
  });
  return `class,quantity,unit price,amount\n${lines.join('\n')}\n`;
}
