import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textWarnings } from '../../src/read/decode.js';

/** The three signs by the characters of the text, as they are defined: C1 controls, UTF-8 read as Latin-1 or windows-1252, U+FFFD. */
function signs(text: string): readonly boolean[] {
  return [/[\u0080-\u009f]/.test(text), /[\u00c2\u00c3][\u0080-\u00bf]|\u00e2\u20ac/.test(text), text.includes('\ufffd')];
}

describe('the signs of a text that was decoded wrongly', () => {
  it('are found in its bytes as they are in its characters', () => {
    const letters = fc.constantFrom(
      'a',
      'Ã',
      'Â',
      '©',
      '¿',
      'À',
      '\u0080',
      '\u009f',
      '\u00a0',
      '\u00bf',
      'â',
      '€',
      '\ufffd',
      '\ufffc',
      'é',
      '漢',
      '𝄞',
      'Ă',
    );
    fc.assert(
      fc.property(fc.array(letters, { maxLength: 6 }), (pieces) => {
        const text = pieces.join('');
        const said = textWarnings(Buffer.from(text)).join('\n');
        expect([said.includes('U+0080 to U+009F'), said.includes('encoded twice'), said.includes('U+FFFD')]).toEqual(signs(text));
      }),
      { numRuns: 4000, seed: 1907 },
    );
  });

  it('are not sought in plain ASCII', () => {
    expect(textWarnings(Buffer.from('<a>plain</a>'))).toEqual([]);
  });
});
