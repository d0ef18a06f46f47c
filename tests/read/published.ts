import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach } from 'vitest';
import { resolveAgreement } from '../../src/judge/agreement.js';
import type { Agreement } from '../../src/model/agreement.js';
import type { Findings } from '../../src/model/findings.js';
import { normaliseReturn } from '../../src/normalise/return.js';
import { statedFacts } from '../../src/normalise/return-needs.js';
import { PROFILES } from '../../src/profiles/index.js';
import { readRecord } from '../../src/read/record.js';
import { readReturn } from '../../src/read/return.js';
import { understoodRecord } from '../../src/reading/index.js';
import { verify } from '../../src/verify.js';

/** A right return in a folder of its own that a test spoils, with its record. */
export interface Spoilt {
  /** The folder of the batch. */
  readonly folder: string;
  readonly record: string;
  readonly read: (path: string) => string;
  readonly put: (path: string, text: string | Buffer) => void;
  /** Takes the place of what stands there; nothing to replace is a mistake of the test. */
  readonly replace: (path: string, from: string | RegExp, to: string) => void;
  readonly remove: (path: string) => void;
  /** Paths of all files. */
  readonly paths: () => readonly string[];
}

const FIXTURES = new URL('../../fixtures/', import.meta.url).pathname;
const made: string[] = [];

afterEach(() => {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
});

function copyOf(fixture: string, below: string): Spoilt {
  const top = mkdtempSync(join(tmpdir(), 'spoilt-'));
  made.push(top);
  cpSync(join(FIXTURES, fixture), top, { recursive: true });
  const folder = join(top, below);
  const at = (path: string): string => join(folder, path);
  const filesIn = (path: string): readonly string[] =>
    readdirSync(at(path), { withFileTypes: true }).flatMap((entry) =>
      entry.isDirectory() ? filesIn(join(path, entry.name)) : [join(path, entry.name)],
    );
  return {
    folder,
    record: join(top, 'record'),
    read: (path) => readFileSync(at(path), 'utf8'),
    put: (path, text) => {
      mkdirSync(dirname(at(path)), { recursive: true });
      writeFileSync(at(path), text);
    },
    replace: (path, from, to) => {
      const before = readFileSync(at(path), 'utf8');
      const after = typeof from === 'string' ? before.replaceAll(from, to) : before.replace(from, to);
      if (after === before) throw new Error(`Nothing to replace in ${path}: ${String(from)}`);
      writeFileSync(at(path), after);
    },
    remove: (path) => {
      rmSync(at(path), { recursive: true });
    },
    paths: () => [...filesIn('')].sort(),
  };
}

/** Where the published batch keeps its reel and its two issues. */
export const REEL = 'sn99041200/00417028865';
export const REEL_DOCUMENT = `${REEL}/00417028865.xml`;
export const FIRST_ISSUE = `${REEL}/1884050701/1884050701.xml`;
export const SECOND_ISSUE = `${REEL}/1884051401/1884051401.xml`;

/** The published batch of the fixtures (issue-mets): two issues on frames 3 to 6 and 8 to 9, targets on 1, 2 and 10; without its second copies. */
export function published(): Spoilt {
  const spoilt = copyOf('shapes/published-batch', 'return/batch_vzx_courant_ver01/data');
  for (const path of spoilt.paths()) if (path.endsWith('_1.xml')) spoilt.remove(path);
  return spoilt;
}

/** Two films in folders for films and editions (page-mods). */
export const films = (): Spoilt => copyOf('agrees/none--as-held-back-skipped-but-as-ordered', 'return');

/** How a spoilt return is verified. */
interface Options {
  readonly policies?: Agreement['policies'];
  readonly readText?: boolean;
  readonly fixity?: boolean;
  /** Folders that were sent later. */
  readonly later?: readonly string[];
}

/** The result on a return. */
export async function verified(
  spoilt: Spoilt,
  { policies = {}, readText = false, fixity = false, later = [] }: Options = {},
): Promise<Findings> {
  const { side } = understoodRecord(await readRecord([spoilt.record]));
  const read = await readReturn([spoilt.folder, ...later], { profiles: PROFILES, readText, fixity });
  if (!read.ok) throw new Error(read.says);
  return verify({
    record: side,
    returned: normaliseReturn(read.written, read.profile),
    stated: statedFacts(read.profile),
    others: [],
    agreement: resolveAgreement({ format: 'reeltally/agreement/2', policies }, read.profile.policies),
    rulings: [],
    earlier: null,
    run: {
      at: '2000-01-01T00:00:00Z',
      received: null,
      batch: read.written.batch,
      delivery: 1,
      profile: read.profile.name,
      inputs: [],
      remarks: read.written.remarks,
    },
    tool: { name: 'reeltally', version: '0' },
  });
}

/** Each finding as `code at says`. */
export const told = ({ findings }: Findings): readonly string[] =>
  findings.map(({ code, at, says }) => `${code}${at === null ? '' : ` ${at}`}: ${says}`);
