import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { parseJson, readJsonFile } from '../../src/read/json.js';
import { linesOf, scanJson } from '../../src/read/json-scan.js';
import { jsonFault } from '../../src/read/json-tokens.js';
import { UserMistake } from '../../src/read/mistake.js';
import { readRegularFile } from '../../src/read/regular-file.js';
import type { JsonKind } from '../../src/read/schemas.js';

const folder = mkdtempSync(join(tmpdir(), 'reeltally-json-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** The sentences with which a text is refused; fails where it is not, or where the error is not the user's. */
function refusal(text: string, kind: JsonKind = 'agreement'): string {
  try {
    parseJson(text, 'terms.json', kind);
  } catch (error) {
    expect(error).toBeInstanceOf(UserMistake);
    return (error as Error).message;
  }
  throw new Error('the text was accepted');
}

const agreement = (fields: string): string => `{"format": "reeltally/agreement/2"${fields}}`;
const record = (frames: string): string =>
  `{"format": "reeltally/collation-record/2", "titles": [], "reels": [{"number": "7", "frames": [${frames}]}]}`;

describe('a file that is not JSON of ours', () => {
  it.each([
    ['', 'terms.json: the file is empty.'],
    [' \n', 'terms.json: the file is empty.'],
    [
      '{"format": "reeltally/agreement/2",\n  "library" "Ost"}',
      'terms.json, line 2, column 13: this is not JSON: "\\"" stands where it cannot stand.',
    ],
    ['{"format": "reeltally/agreement/2"', 'this is not JSON: the text ends too early.'],
    ['<agreement/>', 'line 1, column 1: this is not JSON: "<" stands'],
    ['[1]', 'this file does not say what it is; an agreement is needed here, with "format": "reeltally/agreement/2".'],
    ['"text"', 'does not say what it is'],
    ['null', 'does not say what it is'],
    ['{"format": "reeltally/agreement/1"}', 'this file says that it is "reeltally/agreement/1"; an agreement is needed here'],
    ['{"format": "reeltally/findings/1"}', 'this file says that it is "reeltally/findings/1"'],
    ['{"format": "reeltally/findings/2"}', 'this file says that it is "reeltally/findings/2"'],
  ])('%j', (text, sentence) => {
    expect(refusal(text)).toContain(sentence);
  });
});

describe('what JSON.parse lets through', () => {
  it('a field given twice, with both lines', () => {
    const text = agreement(',\n  "library": "A",\n  "vendor": "V",\n  "library": "B"');
    expect(refusal(text)).toBe('terms.json, line 4: the field "library" is given twice here, first in line 2; keep one of them.');
  });

  it('a field given twice under two spellings of one name', () => {
    expect(refusal(agreement(', "library": "A", "l\\u0069brary": "B"'))).toContain('is given twice');
  });

  it('the same field in two groups is not a repetition', () => {
    expect(parseJson(record('{"frame": "1"}, {"frame": "2"}'), 'r', 'collation-record').reels[0]!.frames).toEqual([
      { frame: '1' },
      { frame: '2' },
    ]);
  });

  it.each([1000, 100_000, 2_000_000])('lists %d deep', (depth) => {
    expect(refusal(`{"format": "reeltally/agreement/2", "columns": ${'['.repeat(depth)}${']'.repeat(depth)}}`)).toMatch(/ deep\.$/);
  });

  it('names that code could take for its own', () => {
    expect(refusal(agreement(', "__proto__": {"library": "X"}'))).toContain('"__proto__" cannot be the name of a field');
    expect(refusal(agreement(', "columns": {"__proto__": "x"}'))).toContain('"__proto__" cannot be the name of a field');
    expect(refusal(agreement(', "constructor": 1'))).toContain('there is no field "constructor" here');
    expect(refusal(agreement(', "severities": {"toString": "minor"}'))).toContain('the field "toString" is not a name that can stand here');
    expect(Object.hasOwn(Object.prototype, 'library')).toBe(false);
  });

  it('numbers that cannot be kept exactly', () => {
    expect(refusal(record('{"frame": 12345678901234567890}'), 'collation-record')).toContain(
      '12345678901234567890 is too long for a number',
    );
  });

  it('a text longer than any field needs', () => {
    expect(refusal(agreement(`, "library": "${'x'.repeat(200_000)}"`))).toContain('a text has more than 100000 characters');
  });

  it('a byte order mark is taken off', () => {
    expect(parseJson(`\ufeff${agreement('')}`, 'a', 'agreement')).toEqual({ format: 'reeltally/agreement/2' });
  });
});

describe('what does not fit the format is said by place, what stands there and what is expected', () => {
  it.each([
    [
      ', "policies": {"pageNumber": "both"}',
      'line 1, policies, pageNumber: "both" stands here; expected one of "intended", "printed", "either".',
    ],
    [', "policies": {"pagenumber": "printed"}', 'policies: there is no field "pagenumber" here; it is written "pageNumber".'],
    [', "tolerances": {"major": 1}', 'there is no field "major" here; the fields here are majorShare, minorShare.'],
    [', "tolerances": {"majorShare": "0.01"}', 'tolerances, majorShare: "0.01" stands here; expected a number without quotes.'],
    [', "tolerances": {"majorShare": 2}', '2 stands here; it must be <= 1'],
    [', "library": 12', 'library: 12 stands here; expected text in double quotes: "12".'],
    [', "library": null', 'library: null stands here; expected text in double quotes.'],
    [
      ', "terms": {"holidays": ["1900-01-01", "1900-02-29"]}',
      'terms, holidays 2: "1900-02-29" stands here; expected a day that exists, written YYYY-MM-DD.',
    ],
    [', "terms": {"classes": [{"class": "pages", "kind": ["page"]}]}', 'terms, classes 1: the field "deliver" is missing.'],
    [', "required": ["date", "order", "date"]', 'required: entries 1 and 3 are the same; keep one of them.'],
    [', "terms": {"currency": "euro"}', '"euro" stands here; expected: ISO 4217 code, or empty.'],
  ])('%s', (fields, sentence) => {
    expect(refusal(agreement(fields))).toContain(sentence);
  });

  it('names the line of a frame', () => {
    const text = record('\n{"frame": "1"},\n{"frame": "2",\n "order": "2"}');
    expect(refusal(text, 'collation-record')).toContain(
      'line 4, reels 1, frames 2, order: "2" stands here; expected a whole number without quotes.',
    );
  });

  it('keeps text as text and fills nothing in', () => {
    const text = record('{"frame": "0012", "page": "3A", "issueNumber": "0012"}');
    expect(parseJson(text, 'r', 'collation-record')).toEqual(JSON.parse(text));
  });

  it('lists ten and counts the rest', () => {
    const frames = Array.from({ length: 25 }, () => '{"frame": 1}').join(',');
    const lines = refusal(record(frames), 'collation-record').split('\n');
    expect(lines).toHaveLength(12);
    expect(lines.at(-1)).toBe('  and 15 more like these.');
  });

  it('looks at the first of very many wrong entries', () => {
    const text = record(Array.from({ length: 20_000 }, () => '1').join(','));
    const lines = refusal(text, 'collation-record').split('\n');
    expect(lines).toHaveLength(12);
    expect(lines[1]).toBe('  line 1, reels 1, frames 1: 1 stands here; expected a group of fields in braces.');
    expect(lines.at(-1)).toBe('  and very many more like these.');
  });

  it('says one thing of a million wrong entries in a very large file', () => {
    const text = record(Array.from({ length: 500_000 }, () => '{"frame":1}').join(','));
    expect(refusal(text, 'collation-record').split('\n')).toHaveLength(2);
  });

  it('spells out what is invisible or would move the cursor', () => {
    const message = refusal(agreement(', "policies": {"pageNumber": "a\\u001b[2J\\u202e\\u200b\\u009b\\ud800"}'));
    expect(message).toContain('\\u001b');
    expect(message).not.toMatch(/[\u001b\u202e\u200b\u009b\ud800]/);
  });
});

describe('a file on disk', () => {
  const at = (name: string): string => join(folder, name);

  it('is read with the digest of its bytes', async () => {
    const bytes = Buffer.from(`\ufeff${agreement(', "library": "Östhaven"')}`);
    writeFileSync(at('a.json'), bytes);
    const { value, sha256 } = await readJsonFile(at('a.json'), 'agreement');
    expect(value.library).toBe('Östhaven');
    expect(sha256).toBe(createHash('sha256').update(bytes).digest('hex'));
  });

  it('may be reached by a link that the user made', async () => {
    writeFileSync(at('b.json'), agreement(''));
    symlinkSync(at('b.json'), at('link.json'));
    expect((await readJsonFile(at('link.json'), 'agreement')).value.format).toBe('reeltally/agreement/2');
  });

  it('that is missing, a folder, a pipe, too large or not UTF-8 is refused in words', async () => {
    await expect(readJsonFile(at('none.json'), 'agreement')).rejects.toThrow('none.json: cannot be read: there is no such file.');
    await expect(readJsonFile(folder, 'agreement')).rejects.toThrow('this is a folder; a file is needed here.');
    execFileSync('mkfifo', [at('pipe.json')]);
    await expect(readJsonFile(at('pipe.json'), 'agreement')).rejects.toThrow('this is not a plain file');
    await expect(readRegularFile(at('b.json'), 3)).rejects.toThrow('the most that is read here is 3 bytes');
    writeFileSync(at('latin.json'), Buffer.from(agreement(', "library": "Östhaven"'), 'latin1'));
    await expect(readJsonFile(at('latin.json'), 'agreement')).rejects.toThrow('latin.json: the file is not UTF-8 text');
  });
});

describe('the walk over a JSON text', () => {
  it('visits every value that JSON.parse gives, under its path', () => {
    const count = (value: unknown): number =>
      typeof value === 'object' && value !== null ? 1 + Object.values(value).reduce((sum: number, inner) => sum + count(inner), 0) : 1;
    fc.assert(
      fc.property(fc.json({ maxDepth: 6 }), fc.boolean(), (text, spread) => {
        const written = spread ? JSON.stringify(JSON.parse(text), null, 2) : text;
        const value: unknown = JSON.parse(written);
        const visited: { path: (string | number)[]; offset: number }[] = [];
        const objection = scanJson(written, (path, offset) => visited.push({ path: [...path], offset }));
        if (objection) {
          expect(objection.says).toMatch(/__proto__|too long for a number|given twice/);
          return;
        }
        expect(visited).toHaveLength(count(value));
        for (const { path, offset } of visited) {
          const there = path.reduce<unknown>((inner, step) => (inner as Record<string, unknown>)[step], value);
          const first = JSON.stringify(there)[0]!;
          expect(written[offset]).toBe(first);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('never throws on what JSON.parse accepts, and a text cut short is never accepted', () => {
    const whole = agreement(',\n "policies": {"pageNumber": "printed"},\n "required": ["date"], "library": "a\\"b{[,:]}"');
    expect(parseJson(whole, 'a', 'agreement').library).toBe('a"b{[,:]}');
    for (let end = 0; end < whole.length; end += 1) expect(refusal(whole.slice(0, end))).not.toBe('');
  });

  it('finds where a text stops being JSON: no earlier cut of it is at fault, and JSON.parse refuses the piece', () => {
    fc.assert(
      fc.property(
        fc.json({ maxDepth: 4 }),
        fc.nat(),
        fc.constantFrom('{', '}', '[', ']', ',', ':', '"', 'x', '\\', '\u0000', '01'),
        (text, at, put) => {
          const place = at % (text.length + 1);
          const broken = text.slice(0, place) + put + text.slice(place);
          let refused = false;
          try {
            JSON.parse(broken);
          } catch {
            refused = true;
          }
          const fault = jsonFault(broken);
          if (!refused) expect(fault).toBe(broken.length);
          // What stands before the fault is the start of some JSON, so that it has no fault of its own.
          else expect(jsonFault(broken.slice(0, fault))).toBe(fault);
        },
      ),
      { numRuns: 500 },
    );
    expect(jsonFault('{"a": 01}')).toBe(6);
    expect(jsonFault('{"a": 1,}')).toBe(8);
    expect(jsonFault('[1 2]')).toBe(3);
    expect(jsonFault('{a: 1}')).toBe(1);
    expect(jsonFault("{'a': 1}")).toBe(1);
    expect(jsonFault('{} {}')).toBe(3);
    expect(jsonFault('[1}')).toBe(2);
    expect(jsonFault('{"a": "tab\there"}')).toBe(6);
  });

  it('is not stopped by one very long text', () => {
    expect(scanJson(`["${'a\\"'.repeat(3_000_000)}"]`)?.says).toContain('a text has more than');
  });

  it('finds lines', () => {
    const text = '{\n"a": [\n1,\n{"b": "x\\ny"}\n],\n"c": 2}';
    expect([...linesOf(text, [[], ['a'], ['a', 0], ['a', 1, 'b'], ['c'], ['none']])]).toEqual([
      ['[]', 1],
      ['["a"]', 2],
      ['["a",0]', 3],
      ['["a",1,"b"]', 4],
      ['["c"]', 6],
    ]);
  });
});
