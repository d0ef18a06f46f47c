import { describe, expect, it } from 'vitest';
import type { Decision, Findings } from '../../src/model/findings.js';
import { render } from '../../src/report/index.js';
import { placeLines } from '../../src/report/text/places.js';
import { columnsOf, table, wrap } from '../../src/report/text/wrap.js';
import { short, visible } from '../../src/report/visible.js';
import { EXAMPLE, finding } from './example.js';
import { HOSTILE, HOSTILE_RESULT, STEERING } from './hostile.js';

const text = async (result: Findings, options = {}): Promise<string> => String(await render(result, 'text', options));
const flat = (report: string): string => report.replace(/\s+/g, ' ');

describe('the summary', () => {
  it('opens with the verdict, closes with what to do and the verdict again', async () => {
    const lines = (await text(EXAMPLE)).trimEnd().split('\n');
    expect(lines[0]).toBe('RETURN FOR REWORK');
    expect(lines.at(-1)).toBe('Verdict: return for rework.');
    expect(flat(lines.slice(-3).join(' '))).toContain('ask for delivery 3');
  });

  it('lists the findings worst first and those decided upon apart', async () => {
    const report = await text(EXAMPLE);
    const heads = [...report.matchAll(/^(\d+)\. ([A-Z]+) ([a-z-]+)/gm)].map((match) => match.slice(1).join(' '));
    expect(heads).toEqual([
      '1 CRITICAL date-differs',
      '2 CRITICAL issue-split',
      '3 MAJOR frame-not-scanned',
      '4 MAJOR page-not-in-collation',
      '5 MINOR issue-number-differs',
    ]);
    expect(report.indexOf('Decided by the library')).toBeGreaterThan(report.indexOf('4. MAJOR'));
    expect(report.indexOf('Decided by the library')).toBeLessThan(report.indexOf('5. MINOR'));
  });

  it('gives place, sentence, both readings, instruction, cause and the other explanation', async () => {
    const report = flat(await text(EXAMPLE));
    for (const part of [
      'Reel 00417, frames 42 to 812 (771 frames; it begins with what happened at frame 41)',
      'Frames 811 and 812 of reel 00417, 1 and 2 of reel 00418 (4 frames)',
      'Reel 00417, at frame 300, nothing on the film',
      'The Tolmouth Lantern, 1899-01-12',
      'every later frame carries a number one too low',
      'The record, frame: 42',
      'The return, frame: 41',
      'What to do: Renumber frames 42 to 812 by +1; no rescan is needed.',
      "Likely cause: the vendor's scanning. All pages and dates after it agree.",
      'Or else: The record counts a blank that is not on the film. (Cause: the collation record.) Then: Look at the film',
      'In the return: vz90000001/00417/1899011201/1899011201.xml, mods[2], line 88',
      'Open since an earlier delivery.',
      "Library's decision: accept-as-is, by Ada Pell on 1926-01-10.",
      "Vendor's answer of 1926-01-08: We read it from page 2.",
      'Corrected since the earlier delivery - The title differs: reel 00417, frames 350 to 351',
      'Not checked - Image files: there are no image files in this copy.',
      'In the record to deliver held back pages 640 12 blanks 0 160',
    ]) {
      expect(report).toContain(part);
    }
  });

  it.each([80, 100])('keeps to %i columns', async (width) => {
    for (const result of [EXAMPLE, { ...EXAMPLE, findings: EXAMPLE.findings.map((one) => ({ ...one, says: 'x'.repeat(500) })) }]) {
      const long = (await text(result, { width })).split('\n').filter((line) => columnsOf(line) > width);
      expect(long).toEqual([]);
    }
  });

  it('says the same with and without colour', async () => {
    const coloured = await text(EXAMPLE, { colour: true });
    expect(coloured).toContain('\u001b[1;31mRETURN FOR REWORK\u001b[0m');

    expect(coloured.replace(/\u001b\[[\d;]*m/g, '')).toBe(await text(EXAMPLE));
  });

  it('says how the pages that came add up with those that were to be delivered', async () => {
    const reel = {
      ...EXAMPLE.counts.reels[0]!,
      kinds: [
        { kind: 'page', deliver: true, count: 107 },
        { kind: 'page', deliver: false, count: 5 },
      ],
    };
    const said = async (pagesMatched: number, pagesUnmatched: number): Promise<string> => {
      const counts = { ...EXAMPLE.counts, reels: [reel], pagesReturned: pagesMatched + pagesUnmatched, pagesMatched, pagesUnmatched };
      return flat(await text({ ...EXAMPLE, counts }));
    };
    expect(await said(106, 3)).toContain(
      '109 pages came: 106 of the 107 that were to be delivered, and 3 that were to be held back or are not in the record;',
    );
    expect(await said(107, 1)).toContain('and 1 that was to be held back or is not in the record;');
    expect(await said(107, 0)).toContain('107 pages came: 107 of the 107 that were to be delivered; ');
  });

  it.each([
    ['2', 'So.; fixed in delivery 2'],
    ['Delivery 2', 'So.; fixed in "Delivery 2"'],
  ])('says in which delivery the vendor mended it, as it was written: %s', async (fixedIn, said) => {
    const answer = { text: 'So.', fixedIn, on: '' };
    const findings = [finding({ id: 'one', code: 'date-differs', severity: 'critical', says: 'So.', answer })];
    expect(flat(await text({ ...EXAMPLE, findings }))).toContain(said);
  });

  it('sends the coordinator to the film before the vendor, where the record is in doubt', async () => {
    const next = async (cause: 'collation' | 'vendor-metadata'): Promise<string> => {
      const findings = [finding({ id: 'one', code: 'date-differs', severity: 'critical', says: 'So.', cause })];
      return flat(await text({ ...EXAMPLE, findings }));
    };
    expect(await next('collation')).toContain(
      'Next: Rule first on 1 finding where the record is likelier wrong or in doubt, and verify again with --rulings. Then send the vendor the list',
    );
    expect(await next('vendor-metadata')).toContain('Next: Send the vendor the list of discrepancies');
  });

  it('sums up several reels', async () => {
    const reel = EXAMPLE.counts.reels[0]!;
    const report = flat(await text({ ...EXAMPLE, counts: { ...EXAMPLE.counts, reels: [reel, { ...reel, reel: '00418' }] } }));
    expect(report).toContain('00418 812 811 811 1 3 all 1624 1622 1622 2 6');
    expect(report).toContain('pages 1280 24 blanks 0 320');
  });

  it('gives an overview by code when there are many findings', async () => {
    const many = {
      ...EXAMPLE,
      findings: Array.from({ length: 7 }, (_, at) =>
        finding({
          id: `n${String(at)}`,
          code: at < 2 ? 'title-differs' : 'volume-differs',
          severity: at < 2 ? 'critical' : 'minor',
          says: 'So.',
          count: 3,
        }),
      ),
    };
    expect(await text(many)).toMatch(/critical +title-differs +2 +6\n +minor +volume-differs +5 +15\n/);
    expect(await text(EXAMPLE)).not.toContain('frames affected');
  });

  it.each<[Decision, RegExp]>([
    ['accept', /settle the invoice.*Verdict: accept\.$/],
    ['accept-with-corrections', /the images need not come again.*Verdict: accept with corrections\.$/],
    ['return-for-rework', /delivery 3.*Verdict: return for rework\.$/],
    ['cannot-decide', /Look at the film for 1 finding where the record is likelier wrong.*Verdict: cannot decide\.$/],
  ])('tells what to do after %s', async (decision, wanted) => {
    expect(flat(await text({ ...EXAMPLE, verdict: { decision, reasons: [] } })).trimEnd()).toMatch(wanted);
  });

  it('says that nothing was found when nothing was', async () => {
    const counts = { ...EXAMPLE.counts, differences: 0, findings: 0 };
    const nothing = await text({ ...EXAMPLE, counts, findings: [] });
    expect(nothing).toContain('No finding: what the vendor sent agrees with the collation record.');
    expect(flat(nothing)).toContain('; nothing differs from the record.');
    expect(nothing).not.toMatch(/\b0 (differences|findings)/);
  });
});

describe('where a finding stands', () => {
  it('is told once per document, and not without end', () => {
    const element = (document: string, at: number) => ({ document, element: `mods${String(at)}` });
    expect(placeLines([1, 2, 3, 4, 5].map((at) => element('a.xml', at)))).toEqual([
      ['In the return: ', 'a.xml, mods1, mods2, mods3 and 2 more'],
    ]);
    expect(placeLines(['a', 'b', 'c', 'd', 'e'].map((name) => element(name, 1))).map(([, text]) => text)).toEqual([
      'a, mods1',
      'b, mods1',
      'c, mods1',
      'and in 2 more documents',
    ]);
    // The last of a long run says that others lie between; in one document they are counted with what is not shown.
    expect(placeLines([...[1, 2, 3].map((at) => element('a.xml', at)), { ...element('z.xml', 9), of: 88 }])).toEqual([
      ['In the return: ', 'a.xml, mods1, mods2, mods3'],
      ['In the return: ', 'z.xml, … mods9 (88 in all)'],
    ]);
    expect(placeLines([...[1, 2, 3].map((at) => element('a.xml', at)), { ...element('a.xml', 20), of: 20 }])).toEqual([
      ['In the return: ', 'a.xml, mods1, mods2, mods3 and 17 more'],
    ]);
    const rows = [22, 23, 24].map((row) => ({ sheet: 'frames', row }));
    expect(placeLines([...rows, { sheet: 'frames', row: 121, of: 100 }])).toEqual([
      ['In the record: ', 'sheet frames, rows 22 to 24 … 121 (100 in all)'],
    ]);
    expect(placeLines([{}, { sheet: 'frames', row: 7 }, { row: 9 }])).toEqual([
      ['In the record: ', 'sheet frames, row 7'],
      ['In the record: ', 'row 9'],
    ]);
  });
});

describe('hostile text in the summary', () => {
  it('reaches no terminal', async () => {
    const report = await text(HOSTILE_RESULT);
    expect(STEERING.exec(report)).toBeNull();
    expect(report).toContain('\\u{1b}[2J');
    expect(report).toContain('\\u{202e}');
    expect(report).toContain('\\u{9b}31m');
  });

  it('is cut, and says how long it was', async () => {
    const report = await text(HOSTILE_RESULT);
    expect(report).not.toContain('9'.repeat(800));
    expect(flat(report)).toContain('(cut, 10000 characters)');
  });

  it.each(Object.keys(HOSTILE))('%s becomes visible', (name) => {
    expect(visible(HOSTILE[name]!)).not.toMatch(STEERING);
    expect(visible(HOSTILE[name]!)).not.toMatch(/\n/);
  });

  it('does not heap marks and cuts between letters', () => {
    expect(visible(`e${'\u0301'.repeat(50)}`)).toBe(`e${'\u0301'.repeat(4)}`);
    expect(short('𝐀'.repeat(50), 3)).toBe('𝐀𝐀𝐀 … (cut, 100 characters)');
    expect(short('𝐀𝐀𝐀', 3)).toBe('𝐀𝐀𝐀');
  });
});

describe('lines and columns', () => {
  it('wraps between words and breaks only a word longer than the line', () => {
    expect(wrap('one two three four five six seven', 24, '- ', '  ')).toEqual(['- one two three four', '  five six seven']);
    expect(wrap('x'.repeat(45), 22)).toEqual(['x'.repeat(22), 'x'.repeat(22), 'x']);
  });

  it('counts wide letters as two columns and marks as none', () => {
    // Unicode Standard Annex 11: ideographs, kana and fullwidth forms are wide.
    expect(columnsOf('日報')).toBe(4);
    expect(columnsOf('ｅ')).toBe(2);
    expect(columnsOf('é')).toBe(1);
    expect(columnsOf('e\u0301')).toBe(1);
    expect(
      table(
        [
          ['日報', '1'],
          ['a', '10'],
        ],
        new Set([1]),
      ),
    ).toEqual(['  日報   1', '  a     10']);
  });
});
