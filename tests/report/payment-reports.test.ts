import { createHash } from 'node:crypto';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DecisionInput, DecisionRecord } from '../../src/model/decision.js';
import type { PicturesFile } from '../../src/model/pictures.js';
import type { SavedSample } from '../../src/model/sample.js';
import type { Worksheet } from '../../src/model/worksheet.js';
import { decide } from '../../src/payment/decide.js';
import { accountText } from '../../src/report/account/text.js';
import { renderDecisionHtml } from '../../src/report/decision/html.js';
import { renderDecisionText } from '../../src/report/decision/text.js';
import { invoiceCsv } from '../../src/report/invoice/csv.js';
import { invoiceText } from '../../src/report/invoice/text.js';
import { scriptJson } from '../../src/report/json-escapes.js';
import { sampleText } from '../../src/report/sample-text.js';
import { worksheetCsv } from '../../src/report/worksheet/csv.js';
import { worksheetHtml } from '../../src/report/worksheet/html.js';
import { fileLink, htmlText } from '../../src/report/worksheet/html-text.js';
import { SCRIPT } from '../../src/report/worksheet/script.js';
import { held, verified } from '../payment/example.js';
import { HOSTILE, STEERING } from './hostile.js';

const digest = (text: string): string => createHash('sha256').update(text, 'utf8').digest('base64');
const page = { base: './../batch/', file: 'worksheet.json', digest, pictures: null };
const settings = { seed: 1879, numRuns: 200 };

/** A worksheet of two pages and an extra in which every text that comes from a file is this one. */
function worksheet(text: string): Worksheet {
  const shown = {
    reel: text,
    frame: text,
    returned: text,
    title: text,
    titleName: text,
    date: text,
    edition: 1,
    section: text,
    page: text,
    order: 1,
  };
  const of = { ...shown, condition: [text], files: [{ use: text, path: text }] };
  const units = [1, 2, 3].map((number) => ({ number, id: text, random: number < 3, reasons: number < 3 ? [] : [text], pages: [of] }));
  const lot = (code: string) => ({
    code,
    seed: text,
    listSha256: '0'.repeat(64),
    lot: { by: 'reel', name: text } as const,
    plan: text,
    curve: [
      { wrong: 0, share: 0, passes: 1 },
      { wrong: 5, share: 0.5, passes: 0.001 },
    ],
    units,
  });
  return {
    batch: text,
    delivery: 1,
    unit: 'page',
    questions: ['right-date', 'legible'],
    lots: [lot('0123456789abcdef'), lot('fedcba9876543210')],
  };
}

/** Elements of a page by name; a text that broke out would change their number. */
const tags = (html: string): readonly string[] =>
  [...html.replace(/<script[\s\S]*?<\/script>/g, '').matchAll(/<\/?([a-z][a-z0-9]*)/gi)].map((match) => match[0]);

describe('the worksheet as a page', () => {
  const plain = worksheetHtml(worksheet('plain.png'), page);

  it('lets in its own script and style by their hashes, and nothing from elsewhere (Content Security Policy Level 3)', () => {
    const [, style = ''] = /<style>([\s\S]*?)<\/style>/.exec(plain) ?? [];
    expect(plain).toContain(`script-src 'sha256-${digest(SCRIPT)}'; style-src 'sha256-${digest(style)}'`);
    expect(plain).toContain("default-src 'none'");
    expect(plain).toContain(`<script>${SCRIPT}</script>`);
    expect(plain).not.toMatch(/https?:|\son\w+=|style=|innerHTML/);
  });

  it('says of a picture that cannot be made what to do, and of a file that is not there only that', () => {
    const hidden = { path: 'plain.png', use: 'master', why: 'it is not in this copy of the batch' };
    const shown = (picture: PicturesFile['pictures'][number]): string =>
      worksheetHtml(worksheet('plain.png'), { ...page, pictures: { format: 'reeltally/pictures/1', pictures: [picture] } });
    expect(shown({ ...hidden, gone: true })).toContain('>No picture of plain.png: it is not in this copy of the batch.</p>');
    expect(shown({ ...hidden, why: 'it is a link' })).toContain('it is a link. Open it with the link above; if your viewer cannot show it');
  });

  it.each(Object.entries(HOSTILE))('stays the same page around a text that is %s', (_, text) => {
    const html = worksheetHtml(worksheet(text), page);
    expect(tags(html).filter((tag) => !/^<\/?(a|img|p|figure|div|figcaption)$/.test(tag))).toEqual(
      tags(plain).filter((tag) => !/^<\/?(a|img|p|figure|div|figcaption)$/.test(tag)),
    );
    expect(html.replaceAll('\n', '')).not.toMatch(STEERING);
    const [, facts = ''] = /id="facts">([\s\S]*?)<\/script>/.exec(html) ?? [];
    expect((JSON.parse(facts) as { readonly units: readonly { readonly id: string }[] }).units[0]?.id).toBe(text);
  });

  it('writes any text so that it cannot leave its place', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(htmlText(text)).not.toMatch(/[<>"']/);
        expect(scriptJson(text)).not.toMatch(/[<>\u2028\u2029]/);
        expect(JSON.parse(scriptJson(text))).toBe(text);
      }),
      settings,
    );
  });

  it.each([
    ['reel 1/0001.png', './../batch/reel%201/0001.png'],
    ['a/50%#?.png', './../batch/a/50%25%23%3F.png'],
    ['javascript:alert(1)', './../batch/javascript%3Aalert(1)'],
    ['../../secret.png', null],
    ['a/../../b.png', null],
    ['/etc/passwd', null],
    ['a\\b.png', null],
    ['a\u0000.png', null],
    ['\ud800.png', null],
    ['', null],
  ])('links %j as %j', (path, link) => {
    expect(fileLink('./../batch/', path)).toBe(link);
  });
});

describe('the other papers', () => {
  const hostile = (text: string) => {
    const base = verified();
    const reels = base.reels;
    return held(
      { ...base, reels, run: { ...base.run, batch: text }, findings: base.findings.map((one) => ({ ...one, says: text })) },
      ['page|210|0.325|68.25', `${text.replaceAll('|', '/')}|1|1.00|1.00`],
      { number: text, file: { name: text, sha256: '' } },
    );
  };
  const invoice = (text: string) => hostile(text).result;
  const input = (text: string): DecisionInput => ({
    findings: { value: { ...verified(), run: { ...verified().run, batch: text } }, name: text, sha256: '' },
    samples: [],
    openDraws: [{ place: text, name: text, sha256: '', lots: [text] }],
    lots: [text],
    account: { value: hostile(text).account, name: text, sha256: '' },
    delivery: 'return-for-rework',
    release: null,
    also: [],
    reason: `For ${text}`,
    by: `Ada ${text}`,
    second: `Bo ${text}`,
    on: '1926-01-20',
  });
  const decided = (text: string): DecisionRecord => {
    const { record, mistakes } = decide(input(text));
    if (record === null) throw new RangeError(mistakes.join(' '));
    return record;
  };
  const counted = { lot: 1, seen: 1, wrong: 0, interval: { low: 0, high: 1 } };
  const sample = (text: string): SavedSample => ({
    format: 'reeltally/sample/2',
    batch: text,
    delivery: 1,
    lot: { by: 'batch', name: text },
    by: text,
    draw: {
      unit: 'page',
      plan: { kind: 'share', lot: 9, size: 1, accept: 0, reject: 1, percent: '1', atLeast: 1, stated: '1', statedCount: 1, passes: 0.9 },
      seed: text,
      listSha256: '',
    },
    agreed: false,
    before: 1,
    reason: text,
    fixed: { at: text, by: text },
    thrown: { at: text, by: text },
    drawn: 1,
    wrong: 1,
    outcome: 'rejected',
    byQuestion: [{ question: 'legible', wrong: 1 }],
    issues: { seen: 1, wrong: 1 },
    rate: 1,
    interval: { low: 1, high: 9 },
    atMost: 9,
    endless: { low: 0, high: 1 },
    extras: { seen: 0, wrong: 0 },
    wrongUnits: [text],
    wrongOnes: [{ id: text, issue: 'issue', random: true, questions: ['legible'], codes: ['image-illegible'], note: text }],
    readers: [{ by: text, units: 1 }],
    twice: 0,
    disagree: [{ id: text, question: 'legible', yes: [text], no: [text] }],
    shared: { questions: [], drawn: 'page', pages: counted, issues: counted },
    widenTo: [text],
    next: null,
    says: [text],
    inputs: [],
  });
  const named = Object.entries(HOSTILE).filter(([, text]) => text.trim() !== '');

  it.each(named)('send nothing to a terminal or a spreadsheet where a text is %s', (_, text) => {
    const record = decided(text);
    const texts = [
      renderDecisionText(record, 80),
      invoiceText(invoice(text), 80),
      accountText(hostile(text).account, 80),
      sampleText(sample(text), 80),
      renderDecisionHtml(record, digest),
    ];
    for (const written of texts) expect(written.replaceAll('\n', '')).not.toMatch(STEERING);
    // OWASP, CSV Injection: what a cell may not begin with
    for (const sheet of [invoiceCsv([invoice(text)]), worksheetCsv(worksheet(text))])
      for (const row of parse(sheet, { bom: true })) for (const cell of row) expect(cell).not.toMatch(/^\s*[=+@\t\r-]/);
  });

  it.each(named)('keep a printed decision in one piece where a text is %s', (_, text) => {
    expect(tags(renderDecisionHtml(decided(text), digest))).toEqual(tags(renderDecisionHtml(decided('plain'), digest)));
  });
});
