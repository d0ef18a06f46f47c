import { cpSync, mkdirSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newFolder, reeltally } from './command.js';

const place = newFolder();
reeltally(['demo', place, '--quiet']);
const [record, agreement, findings] = [join(place, 'record'), join(place, 'agreement.json'), join(place, 'results', 'findings.json')];
const BATCH = join(place, 'return', 'batch_vzx_tolmouth');
writeFileSync(join(place, 'invoice.csv'), 'item,quantity,unit price,amount\npage,1,0.32,0.32\n');
const filesIn = (folder: string): readonly string[] => (readdirSync(folder, { recursive: true }) as string[]).toSorted();

/** A draw beside the return, to be judged. */
const spot = join(place, 'spot');
reeltally(['sample', 'draw', findings, '--fix', '--out', spot, '--quiet']);
reeltally(['sample', 'draw', findings, '--seed', '463152513642516344215362', '--out', spot, '--quiet']);

/** Every command that writes, told to write here. */
const WRITERS: readonly (readonly [string, (out: string) => readonly string[]])[] = [
  ['verify', (out) => ['verify', '--collation', record, '--batch', BATCH, '--agreement', agreement, '--out', out]],
  ['render', (out) => ['render', findings, '--format', 'csv', '--out', out]],
  ['sample draw --fix', (out) => ['sample', 'draw', findings, '--fix', '--out', out]],
  [
    'sample judge',
    (out) => ['sample', 'judge', join(spot, 'draw.json'), '--worksheet', join(spot, 'worksheet.csv'), '--by', 'Ada Pell', '--out', out],
  ],
  ['invoice', (out) => ['invoice', join(place, 'invoice.csv'), '--findings', findings, '--out', out]],
  [
    'decide',
    (out) => ['decide', '--findings', findings, '--delivery-decision', 'put-off', '--by', 'Ada Pell', '--on', '2031-03-05', '--out', out],
  ],
  ['ledger', (out) => ['ledger', findings, '--out', out]],
  ['collation check', (out) => ['collation', 'check', record, '--out', out]],
  ['collation instructions', (out) => ['collation', 'instructions', record, '--out', out]],
  ['collation expected', (out) => ['collation', 'expected', record, '--out', out]],
  ['collation convert', (out) => ['collation', 'convert', record, '--to', 'json', '--out', out]],
  ['collation convert to a workbook', (out) => ['collation', 'convert', record, '--to', 'frame-sheet', '--out', join(out, 'record.xlsx')]],
  [
    'collation new',
    (out) => [
      ...['collation', 'new', '--title', 'sn99018200', '--from-day', '1879-01-01', '--to-day', '1879-02-01'],
      ...['--pattern', 'wed', '--pages', '4', '--out', join(out, 'new.csv')],
    ],
  ],
  ['dossier new', (out) => ['dossier', 'new', out]],
  ['demo', (out) => ['demo', out]],
];

describe('nothing is written into what the vendor sent', () => {
  const way = join(newFolder(), 'way');
  symlinkSync(BATCH, way);
  const before = filesIn(BATCH);

  it.each(WRITERS)('by %s', (_, args) => {
    for (const out of [join(BATCH, 'mine'), join(way, 'mine'), join(BATCH, before.find((name) => !name.includes('.')) ?? '', 'a', 'b')]) {
      const { status, stderr } = reeltally(args(out));
      expect([status, stderr]).toEqual([3, expect.stringContaining(`lies in the folder of the batch, ${BATCH}`)]);
    }
    expect(filesIn(BATCH)).toEqual(before);
  });

  it.each(WRITERS)('and beside it %s may write', (_, args) => {
    const { stderr } = reeltally(args(join(newFolder(), 'batch_vzx_tolmouth', 'mine')));
    expect(stderr).not.toContain('lies in the folder of the batch');
  });

  it('not even where an invoice or a record lies in it, for its reading file', () => {
    const copy = join(newFolder(), 'batch_vzx_tolmouth');
    cpSync(BATCH, copy, { recursive: true });
    writeFileSync(join(copy, 'invoice.csv'), 'Leistung;Menge;Einzelpreis;Betrag\nSeiten;1;0,32;0,32\n');
    const there = filesIn(copy);
    const { status, stderr } = reeltally(['invoice', join(copy, 'invoice.csv'), '--findings', findings]);
    expect([status, stderr]).toEqual([3, expect.stringContaining('first copy the file that is read here')]);
    expect(filesIn(copy)).toEqual(there);
  });

  it.each([
    ['with its documents in "data"', 'batch_a/data', 'batch_a/mine'],
    ['a bag', 'anything/data', 'anything/mine'],
    ['with a folder for each film and edition', 'B400-RT1/400-1/1850-01-02-01', 'B400-RT1/mine'],
    ['with a folder for each film and edition, in one of them', 'B400-RT1/400-1/1850-01-02-01', 'B400-RT1/400-1/mine'],
  ])('a batch %s', (_, documents, out) => {
    const desk = newFolder();
    mkdirSync(join(desk, documents), { recursive: true });
    writeFileSync(join(desk, documents, 'one.xml'), '<?xml version="1.0"?>\n<m:mods xmlns:m="http://www.loc.gov/mods/v3"/>');
    if (documents.startsWith('anything')) writeFileSync(join(desk, 'anything', 'bagit.txt'), 'BagIt-Version: 1.0\n');
    const { status, stderr } = reeltally(['ledger', findings, '--out', join(desk, out)]);
    expect([status, stderr]).toEqual([3, expect.stringContaining('lies in the folder of the batch')]);
  });

  it.each([
    ['a folder of the order that holds the batch', 'order/batch_a', 'order/results'],
    ['a folder called after the batch that holds it', 'batch_a/return', 'batch_a/results'],
    ['a dossier called after the batch in which a drive was copied', 'batch_a_ver01/drive', 'batch_a_ver01/results'],
  ])('but into %s', (what, documents, out) => {
    const desk = newFolder();
    mkdirSync(join(desk, documents), { recursive: true });
    writeFileSync(join(desk, documents, 'batch.xml'), '<batch/>');
    if (what.startsWith('a dossier')) writeFileSync(join(desk, 'batch_a_ver01', 'dossier.json'), '{}');
    const { status, stderr } = reeltally(['ledger', findings, '--out', join(desk, out)]);
    expect([status, stderr]).toEqual([0, expect.stringContaining('Written to')]);
  });
});
