import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { XmlDocument } from 'libxml2-wasm';
import { describe, expect, it } from 'vitest';
import { cell, sheet } from '../../src/report/sheet.js';
import { wrap } from '../../src/report/text/wrap.js';
import { short, visible } from '../../src/report/visible.js';
import { xmlText } from '../../src/report/xml/escape.js';
import { HOSTILE, STEERING } from './hostile.js';

/** Any text at all: every code point and lone surrogates, beside pieces that are known to do harm. */
const anyText = fc
  .array(
    fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.string({ unit: fc.integer({ min: 0, max: 0xffff }).map((code) => String.fromCharCode(code)) }),
      fc.constantFrom(...Object.values(HOSTILE).filter((text) => text.length < 200)),
    ),
    {
      maxLength: 6,
    },
  )
  .map((pieces) => pieces.join(''));

const settings = { seed: 1879, numRuns: 400 };

describe('any text', () => {
  it('becomes visible: nothing is left that steers a terminal, and doing it twice changes nothing', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        expect(visible(text)).not.toMatch(STEERING);
        expect(visible(visible(text))).toBe(visible(text));
      }),
      settings,
    );
  });

  it('is cut without breaking a letter', () => {
    fc.assert(
      fc.property(anyText, fc.integer({ min: 1, max: 30 }), (text, limit) => {
        const cut = short(text, limit);
        expect(cut).not.toMatch(STEERING);
        expect(cut.length).toBeLessThan(12 * limit + 40);
      }),
      settings,
    );
  });

  it('is one cell of one row, the same after the mark is taken off', () => {
    fc.assert(
      fc.property(fc.array(anyText, { minLength: 2, maxLength: 4 }), (texts) => {
        const rows = parse(sheet([texts.map(cell)]), { bom: true, record_delimiter: '\r\n' });
        expect(rows).toHaveLength(1);
        expect(rows[0]!.map((value) => value.replace(/^'/, ''))).toEqual(texts.map((text) => short(text, 2000)));
      }),
      settings,
    );
  });

  it('comes back from an XML parser as it was, but for what XML cannot hold', () => {
    const illegal = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Cs}/gu;
    fc.assert(
      fc.property(anyText, (text) => {
        using document = XmlDocument.fromString(`<a b="${xmlText(text)}">${xmlText(text)}</a>`);
        const wanted = text.replace(illegal, '\ufffd');
        expect(document.root.content).toBe(wanted);
        expect(document.root.attr('b')?.value).toBe(wanted);
      }),
      settings,
    );
  });

  it('is wrapped without losing a letter', () => {
    fc.assert(
      fc.property(anyText, fc.integer({ min: 20, max: 60 }), (text, width) => {
        const plain = visible(text);
        const lines = wrap(plain, width);
        expect(lines.join('').replace(/\s/gu, '')).toBe(plain.replace(/\s/gu, ''));
      }),
      settings,
    );
  });
});
