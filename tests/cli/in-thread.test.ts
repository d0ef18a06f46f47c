import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { EXAMPLE } from '../report/example.js';
import { newFolder, reeltally, reeltallyProcess, savedResult } from './command.js';

const of = (name: string): string => fileURLToPath(new URL(`../../fixtures/demonstration/${name}`, import.meta.url));
const AT = { SOURCE_DATE_EPOCH: '1930000000' };
const saved = savedResult(EXAMPLE);
const broken = join(newFolder(), 'findings.json');
writeFileSync(broken, '{');

// Most tests of commands run them in a thread, because it is quicker; what they see there must be what a person sees.
it.each<[readonly string[], Record<string, string>]>([
  [[], {}],
  [['--version'], {}],
  [['verify', '--wrong'], {}],
  [['help', 'codes'], {}],
  [['profile', 'show', 'issue-mets'], {}],
  [['collation', 'check', of('record')], {}],
  [['verify', '--collation', of('record'), '--batch', of('return'), '--agreement', of('agreement.json')], AT],
  [['verify', '--collation', of('record'), '--batch', of('return')], { SOURCE_DATE_EPOCH: 'now' }],
  [['render', saved, '--format', 'xlsx'], {}],
  [['render', saved, '--format', 'text'], { FORCE_COLOR: '1' }],
  [['render', broken, '--format', 'text'], {}],
  [['ledger', saved, '--format', 'json'], AT],
])('%j ends in a thread as it does as a process', (args, env) => {
  const inThread = reeltally(args, env);
  expect(inThread).toEqual(reeltallyProcess(args, env));
  expect(inThread.stdout + inThread.stderr).not.toBe('');
});
