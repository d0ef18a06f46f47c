import { cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { XmlDocument } from 'libxml2-wasm';
import { checkAs, recordCheck } from '../../src/acts/collation-check.js';
import { auditOf } from '../../src/acts/dossier/audit/index.js';
import { statusOfDossier } from '../../src/acts/dossier/status.js';
import { collationRecord } from '../../src/acts/inputs/collation-record.js';
import { heldInvoices, invoicesText } from '../../src/acts/invoice.js';
import { ledgerFiles, toldLedger } from '../../src/acts/ledger.js';
import { judgedSample, sampleFiles } from '../../src/acts/sample-judge.js';
import { plannedDraw } from '../../src/acts/sample-plan.js';
import { quietly } from '../../src/acts/surroundings.js';
import { type VerificationFiles, verification } from '../../src/acts/verify.js';
import type { Findings } from '../../src/model/findings.js';
import { UserMistake } from '../../src/read/mistake.js';
import { schemaCheck } from '../../src/read/schemas.js';
import { FORMATS, render } from '../../src/report/index.js';
import { LEDGER_FORMATS } from '../../src/report/ledger/formats.js';
import { nextInWords } from '../../src/report/status.js';
import type { Random } from '../forge/film/random.js';
import { STEERING } from '../report/hostile.js';
import { mutatedBytes, mutatedCsv, mutatedJson } from './mutate.js';
import { BATCH } from './template.js';

/** What must never be: told with the case. */
export class Violation extends Error {}

/** One kind of file to spoil: spoils it in a folder of its own and does with it what a command does. */
export interface Target {
  readonly name: string;
  readonly run: (random: Random, root: string) => Promise<void>;
}

const around = quietly('2031-03-04');

const holds = (isSo: boolean, what: string): void => {
  if (!isSo) throw new Violation(what);
};

/** Does the work and answers its outcome, or null where it was refused in a sentence. */
async function refusable<T>(work: () => Promise<T>): Promise<T | null> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof UserMistake)) throw error;
    holds(error.message.trim() !== '', 'a refusal says nothing');
    holds(!/undefined|\[object|NaN/.test(error.message), `a refusal holds a value of the program: ${error.message}`);
    return null;
  }
}

/** What every result must be: of its schema, and in every form without what steers a terminal. */
export async function holdResult(result: Findings, random: Random): Promise<void> {
  const check = schemaCheck('findings', false);
  holds(check(JSON.parse(JSON.stringify(result))), `the result is not of its schema: ${JSON.stringify(check.errors?.[0])}`);
  const format = random.pick(FORMATS).name;
  const text = await render(result, format);
  if (typeof text !== 'string') return;
  const steering = STEERING.exec(format === 'csv' ? text.replaceAll('\r\n', '\n').replace(/^\ufeff/, '') : text);
  holds(
    steering === null || (format === 'html' && steering[0] === '\u00ad'),
    `the ${format} of the result holds ${JSON.stringify(steering?.[0])}`,
  );
}

const verified = async (root: string, more: Partial<VerificationFiles> = {}): Promise<Findings> =>
  verification(
    { collation: [join(root, 'record')], batch: [join(root, 'return', BATCH)], agreement: join(root, 'agreement.json'), ...more },
    around,
  );

/** A JSON file, changed as JSON or as bytes; where it is no JSON any more, it must be refused. */
function spoiltJson(random: Random, path: string): { readonly text: Buffer; readonly isJson: boolean } {
  const bytes = readFileSync(path);
  const text = random.chance(700) ? Buffer.from(mutatedJson(random, bytes.toString())) : mutatedBytes(random, bytes);
  return { text, isJson: parses(text) };
}

function parses(text: Buffer): boolean {
  try {
    JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(text).replace(/^\ufeff/, ''));
    return true;
  } catch {
    return false;
  }
}

/** A target that spoils one JSON file and does something with it. */
function jsonTarget(name: string, file: string, work: (path: string, root: string, random: Random) => Promise<void>): Target {
  return {
    name,
    run: async (random, root) => {
      const path = join(root, 'work', basename(file));
      const { text, isJson } = spoiltJson(random, join(root, file));
      writeFileSync(path, text);
      const outcome = await refusable(async () => {
        await work(path, root, random);
        return true;
      });
      // JSON.parse is the independent reader here.
      holds(isJson || outcome === null, `${name}: what JSON.parse refuses was accepted`);
    },
  };
}

const documents = (root: string): readonly string[] =>
  readdirSync(join(root, 'return', BATCH), { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.xml'))
    .toSorted();

function isWellFormed(bytes: Buffer): boolean {
  try {
    XmlDocument.fromBuffer(bytes).dispose();
    return true;
  } catch {
    return false;
  }
}

const documentTarget: Target = {
  name: 'a document',
  run: async (random, root) => {
    const path = random.pick(documents(root));
    const place = join(root, 'return', BATCH, path);
    const before = readFileSync(place);
    const changed = mutatedBytes(random, before);
    writeFileSync(place, changed);
    const result = await refusable(async () => verified(root)).finally(() => {
      writeFileSync(place, before);
    });
    if (result === null) return;
    await holdResult(result, random);
    // libxml2 is the independent reader: what it refuses must be told, and never pass for agreement.
    const isTold =
      result.findings.some((finding) => finding.places.some(({ document }) => document === path)) ||
      JSON.stringify(result.unchecked).includes(path);
    holds(isWellFormed(changed) || isTold, `${path}: what libxml2 refuses was accepted in silence`);
  },
};

const csvTarget: Target = {
  name: 'a record',
  run: async (random, root) => {
    const place = join(root, 'record', random.pick(['frames.csv', 'frames.csv', 'titles.csv', 'reels.csv']));
    const before = readFileSync(place);
    writeFileSync(place, random.chance(700) ? mutatedCsv(random, before.toString()) : mutatedBytes(random, before));
    try {
      const checked = await refusable(async () => recordCheck([join(root, 'record')], undefined, around));
      if (checked !== null) await checkAs(random.pick(['json', 'text', 'html'] as const), checked);
      const result = await refusable(async () => verified(root));
      if (result !== null) await holdResult(result, random);
    } finally {
      writeFileSync(place, before);
    }
  },
};

const bookTarget: Target = {
  name: 'a workbook',
  run: async (random, root) => {
    const path = join(root, 'work', 'record.xlsx');
    writeFileSync(path, mutatedBytes(random, readFileSync(join(root, 'record.xlsx'))));
    await refusable(async () => collationRecord([path]));
  },
};

const invoiceTarget: Target = {
  name: 'an invoice',
  run: async (random, root) => {
    const path = join(root, 'work', 'invoice.csv');
    rmSync(join(root, 'work', 'invoice.reading.json'), { force: true });
    const text = readFileSync(join(root, 'invoice.csv'));
    writeFileSync(path, random.chance(700) ? mutatedCsv(random, text.toString()) : mutatedBytes(random, text));
    const held = await refusable(async () =>
      heldInvoices(
        { invoices: [path], findings: [join(root, 'results', 'findings.json')], account: null, keep: { account: false, reading: false } },
        around,
      ),
    );
    if (held !== null) holds(!STEERING.test(invoicesText(held.results, held.account, 80)), 'the text of an invoice steers a terminal');
  },
};

const worksheetTarget: Target = {
  name: 'a worksheet',
  run: async (random, root) => {
    const path = join(root, 'work', 'worksheet.csv');
    const text = readFileSync(join(root, 'spot', 'worksheet.csv'));
    writeFileSync(path, random.chance(700) ? mutatedCsv(random, text.toString()) : mutatedBytes(random, text));
    const judged = await refusable(async () => judgedSample({ draw: join(root, 'spot', 'draw.json'), worksheets: [path], by: 'Ada Pell' }));
    if (judged !== null) sampleFiles(judged);
  },
};

const dossierTarget: Target = {
  name: 'a dossier',
  run: async (random, root) => {
    const folder = join(root, 'work', 'order');
    rmSync(folder, { recursive: true, force: true });
    cpSync(join(root, 'order'), folder, { recursive: true });
    const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
    const file = random.pick(files.map((entry) => join(entry.parentPath, entry.name)).toSorted());
    if (random.chance(100)) rmSync(file);
    else if (file.endsWith('.json') && random.chance(600)) writeFileSync(file, mutatedJson(random, readFileSync(file, 'utf8')));
    else writeFileSync(file, mutatedBytes(random, readFileSync(file)));
    await refusable(async () => nextInWords((await statusOfDossier(folder, around)).next));
    await refusable(async () => auditOf(folder, { batch: 'none', file: null }, around));
  },
};

export const TARGETS: readonly Target[] = [
  documentTarget,
  csvTarget,
  bookTarget,
  jsonTarget('a record as JSON', 'json/collation-record.json', async (path, root, random) => {
    const result = await verified(root, { collation: [path] });
    await holdResult(result, random);
  }),
  jsonTarget('an agreement', 'agreement.json', async (path, root, random) => {
    await holdResult(await verified(root, { agreement: path }), random);
  }),
  jsonTarget('a profile', 'profile.json', async (path, root, random) => {
    await holdResult(await verified(root, { profile: path }), random);
  }),
  jsonTarget('rulings', 'rulings.json', async (path, root, random) => {
    await holdResult(await verified(root, { rulings: [path] }), random);
  }),
  jsonTarget('a result', 'results/findings.json', async (path, root, random) => {
    const ledger = await toldLedger([path], null, around);
    for (const { name, make } of ledgerFiles(
      ledger,
      LEDGER_FORMATS.filter(({ name: format }) => format === 'text'),
    )) {
      const text = await make();
      holds(typeof text === 'string' && !STEERING.test(text), `${name} steers a terminal`);
    }
    await plannedDraw({ findings: path, by: 'reel', extras: [], plan: {} });
    if (random.chance(300)) await holdResult(await verified(root, { earlier: path }), random);
  }),
  jsonTarget('a draw', 'spot/draw.json', async (path, root) => {
    await judgedSample({ draw: path, worksheets: [join(root, 'spot', 'worksheet.csv')], by: 'Ada Pell' });
  }),
  worksheetTarget,
  invoiceTarget,
  dossierTarget,
];
