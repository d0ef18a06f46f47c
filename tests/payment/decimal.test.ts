import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minorDigits } from '../../src/payment/currency.js';
import { exactMinor, multiply, parseDecimal, roundHalfUp, sameNumber, writeMinor } from '../../src/payment/decimal.js';

const decimal = (text: string): { readonly units: bigint; readonly scale: number } => parseDecimal(text)!;
const rounded = (text: string, digits: number): string => writeMinor(roundHalfUp(decimal(text), digits), digits);

/** Decimal text from an integer and a number of decimals, made by cutting the digits. */
const decimalText = fc.tuple(fc.bigInt(-(10n ** 14n), 10n ** 14n), fc.integer({ min: 0, max: 6 })).map(([units, scale]) => {
  const digits = (units < 0n ? -units : units).toString().padStart(scale + 1, '0');
  const text = scale === 0 ? digits : `${digits.slice(0, digits.length - scale)}.${digits.slice(digits.length - scale)}`;
  return units < 0n ? `-${text}` : text;
});

describe('rounding half up', () => {
  // Java SE API, java.math.RoundingMode, summary table, column HALF_UP. From memory.
  it.each([
    ['5.5', '6'],
    ['2.5', '3'],
    ['1.6', '2'],
    ['1.1', '1'],
    ['1.0', '1'],
    ['-1.0', '-1'],
    ['-1.1', '-1'],
    ['-1.6', '-2'],
    ['-2.5', '-3'],
    ['-5.5', '-6'],
  ])('takes %s to %s', (text, wanted) => {
    expect(rounded(text, 0)).toBe(wanted);
  });

  // Known to go wrong in binary: 1.005 * 100 is 100.49999999999999 as a double (IEEE 754).
  it.each([
    ['1.005', '1.01'],
    ['1.255', '1.26'],
    ['0.285', '0.29'],
  ])('takes %s to %s, where binary numbers do not', (text, wanted) => {
    expect(rounded(text, 2)).toBe(wanted);
    expect(String(Math.round(Number(text) * 100) / 100)).not.toBe(wanted);
  });

  it('agrees with the rounding mode halfExpand of ECMA-402 on any decimal', () => {
    fc.assert(
      fc.property(decimalText, fc.integer({ min: 0, max: 4 }), (text, digits) => {
        // The library of types does not know yet that format reads a decimal text exactly, nor the rounding mode.
        const options = {
          minimumFractionDigits: digits,
          maximumFractionDigits: digits,
          roundingMode: 'halfExpand',
          signDisplay: 'negative',
        };
        const format = new Intl.NumberFormat('en', { ...options, useGrouping: false } as Intl.NumberFormatOptions);
        expect(rounded(text, digits)).toBe(format.format(text as unknown as number));
      }),
    );
  });
});

describe('decimals', () => {
  it('multiply exactly: 4 digits by 4 digits is what integers make of it', () => {
    fc.assert(
      fc.property(fc.integer({ min: -99999, max: 99999 }), fc.integer({ min: -99999, max: 99999 }), (a, b) => {
        const product = multiply({ units: BigInt(a), scale: 2 }, { units: BigInt(b), scale: 3 });
        expect(product).toEqual({ units: BigInt(a * b), scale: 5 });
      }),
    );
  });

  it('are the same number whatever zeros they end in', () => {
    expect(sameNumber(decimal('0.32'), decimal('0.3200'))).toBe(true);
    expect(sameNumber(decimal('-0'), decimal('0.00'))).toBe(true);
    expect(sameNumber(decimal('0.32'), decimal('0.321'))).toBe(false);
  });

  it('are whole minor units or not', () => {
    expect(exactMinor(decimal('12.340'), 2)).toBe(1234n);
    expect(exactMinor(decimal('12.345'), 2)).toBeNull();
    expect(exactMinor(decimal('12'), 3)).toBe(12000n);
  });

  it.each([
    '',
    ' ',
    '1,5',
    '1.234,50',
    '1,234.50',
    '1 234',
    '.5',
    '5.',
    '1e3',
    '0x10',
    '+1',
    '--1',
    '1.1234567',
    '١٢',
    'NaN',
    '1'.repeat(16),
  ])('do not come from %j', (text) => {
    expect(parseDecimal(text)).toBeNull();
  });

  it('are written and read back as the same', () => {
    fc.assert(
      fc.property(fc.bigInt(-(10n ** 13n), 10n ** 13n), fc.integer({ min: 0, max: 4 }), (minor, digits) => {
        const read = decimal(writeMinor(minor, digits));
        expect(exactMinor(read, digits)).toBe(minor);
      }),
    );
  });
});

describe('minor units', () => {
  // Intl takes its list from CLDR, which leaves out minor units that nobody pays with; for these ISO 4217 lists them all the same.
  const UNUSED = 'AFN ALL COP HUF IDR IQD IRR KPW LAK LBP MGA MMK PKR RSD SLL SOS STN SYP TMM TWD UZS YER ZMK'.split(' ');

  it('are those of Unicode CLDR for every other currency that it knows', () => {
    const known = Intl.supportedValuesOf('currency').filter((code) => !UNUSED.includes(code));
    expect(known.length).toBeGreaterThan(100);
    for (const code of known) {
      const options = new Intl.NumberFormat('en', { style: 'currency', currency: code }).resolvedOptions();
      expect(`${code} ${String(minorDigits(code))}`).toBe(`${code} ${String(options.maximumFractionDigits)}`);
    }
  });

  it('are hundredths where no currency is named', () => {
    expect(minorDigits('')).toBe(2);
  });
});
