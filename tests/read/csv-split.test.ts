import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { splitCsv } from '../../src/read/csv-split.js';
import { randomFrom } from '../forge/film/random.js';

const PIECES = ['a', '12', ',', ',', ';', '\t', '"', '""', '\n', '\r\n', '\r', ' ', 'é', '\u{1f600}', '\u2028', "'"];
const WAYS = { mostRows: 200_000, longestRow: 1_000_000 };

/** What csv-parse makes of a text, null where it refuses it. */
function parsed(text: string, delimiter: string): string[][] | null {
  try {
    return parse(text, { delimiter, record_delimiter: ['\r\n', '\n', '\r'], relax_column_count: true, skip_empty_lines: false });
  } catch {
    return null;
  }
}

describe('splitting a CSV text', () => {
  it('agrees with csv-parse on 5,000 drawn texts, or leaves them to it', () => {
    let split = 0;
    const wrong: string[] = [];
    for (let seed = 1; seed <= 5_000; seed += 1) {
      const random = randomFrom(seed);
      const text = Array.from({ length: random.below(14) }, () => random.pick(PIECES)).join('');
      const delimiter = random.pick([',', ';', '\t']);
      const own = splitCsv(text, { delimiter, ...WAYS });
      const other = parsed(text, delimiter);
      if (own !== null) split += 1;
      if (own === null ? other !== null : JSON.stringify(own) !== JSON.stringify(other)) wrong.push(JSON.stringify({ text, delimiter }));
    }
    expect(wrong).toEqual([]);
    expect(split).toBeGreaterThan(1_000);
  });

  it('takes quotation marks, line breaks and doubled marks inside them as RFC 4180 has it', () => {
    expect(splitCsv('a,"b ""c""\r\nd",\r\n\n"",x', { delimiter: ',', ...WAYS })).toEqual([['a', 'b "c"\r\nd', ''], [''], ['', 'x']]);
  });

  it('leaves texts to the whole reader that are too long or have another kind of separator', () => {
    expect(splitCsv('a\nb\nc', { delimiter: ',', mostRows: 2, longestRow: 100 })).toBeNull();
    expect(splitCsv('aaaa,bbbb', { delimiter: ',', mostRows: 2, longestRow: 9 })).toBeNull();
    expect(splitCsv('a§b', { delimiter: '§', ...WAYS })).toBeNull();
  });
});
