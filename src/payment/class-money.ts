import type { PriceClass } from '../model/agreement.js';
import type { ClassCount, Findings } from '../model/findings.js';
import { type Part, paidRescans, partsOf, units } from './class-quantities.js';
import { multiply, parseDecimal, roundHalfUp, whole } from './decimal.js';
import { type ReadLine, wholeNumber } from './invoice-lines.js';

/** A part with what it comes to in minor units and the lines that it was billed on. */
export interface PricedPart extends Part {
  readonly effect: bigint;
  readonly lines: readonly string[];
}

/** One line as due. */
export interface DueLine {
  readonly read: ReadLine;
  readonly quantity: number;
  readonly due: number;
  /** Minor units. */
  readonly dueAmount: bigint;
}

/** A class settled: what is due on each of its lines, and the parts that are not. */
export interface SettledClass {
  readonly billed: number;
  readonly payable: number;
  readonly rescans: number;
  readonly lines: readonly DueLine[];
  readonly parts: readonly PricedPart[];
}

/** Settles the lines of one class. Every line is rounded by itself; the effects of the parts add up to the billed less the due quantities at the agreed price. */
export function settleClass(
  entry: PriceClass,
  count: ClassCount,
  read: readonly ReadLine[],
  findings: Findings,
  digits: number,
): SettledClass {
  const rescans = paidRescans(entry, findings);
  const payable = count.accepted + rescans;
  const lines = read.map((line) => ({ read: line, quantity: wholeNumber(line.quantity) ?? 0 }));
  const billed = lines.reduce((sum, line) => sum + line.quantity, 0);
  const repeated = repeatedLines(lines, billed - count.returned - rescans);
  // Credits first: they make room for what is billed on other lines.
  let room = payable - lines.reduce((sum, line) => sum + Math.min(0, line.quantity), 0);
  const dueLines = lines.map((line): DueLine => {
    const due = line.quantity < 0 ? line.quantity : repeated.has(line.read) ? 0 : Math.min(line.quantity, room);
    if (line.quantity > 0) room -= due;
    return { ...line, due, dueAmount: atPrice(entry, line.read, due, digits) };
  });
  const twice = dueLines.filter((line) => repeated.has(line.read)).map((line) => repeatedPart(entry, line, digits));
  const cut = dueLines.filter((line) => !repeated.has(line.read) && line.due < line.quantity);
  const over = cut.reduce((sum, line) => sum + line.quantity - line.due, 0);
  return {
    billed,
    payable,
    rescans,
    lines: dueLines,
    parts: [...twice, ...priced(entry, partsOf(entry, count, findings, over), cut, digits)],
  };
}

/** The amount in minor units of so many units of a line at the agreed price, else at the price billed. */
export function atPrice(entry: PriceClass, line: ReadLine, quantity: number, digits: number): bigint {
  const agreed = entry.unitPrice === undefined ? null : parseDecimal(entry.unitPrice);
  return roundHalfUp(multiply(whole(quantity), agreed ?? line.unitPrice), digits);
}

/** Lines that say the same as an earlier one, where more is billed than came. Two reels may well have equally many frames, so equality alone proves nothing. */
function repeatedLines(lines: readonly { readonly read: ReadLine; readonly quantity: number }[], surplus: number): ReadonlySet<ReadLine> {
  const seen = new Set<string>();
  const repeated = new Set<ReadLine>();
  let left = surplus;
  for (const { read, quantity } of lines) {
    const key = JSON.stringify([quantity, read.line.unitPrice.trim(), String(read.minor)]);
    if (seen.has(key) && quantity > 0 && quantity <= left) {
      repeated.add(read);
      left -= quantity;
    }
    seen.add(key);
  }
  return repeated;
}

function repeatedPart(entry: PriceClass, line: DueLine, digits: number): PricedPart {
  return {
    kind: 'line-repeated',
    count: line.quantity,
    findings: [],
    says: `Line ${line.read.line.line} (row ${String(line.read.line.row)}) bills ${units(line.quantity)} of the class "${entry.class}" that an earlier line bills already.`,
    effect: atPrice(entry, line.read, line.quantity, digits),
    lines: [line.read.line.line],
  };
}

/** Gives each part its units on the lines that were cut, from the full quantity downwards, so that roundings cancel out between the steps. */
function priced(entry: PriceClass, parts: readonly Part[], cut: readonly DueLine[], digits: number): readonly PricedPart[] {
  const open = cut.map((line) => ({ line, level: line.quantity }));
  return parts.map((part) => {
    let left = part.count;
    let effect = 0n;
    const lines: string[] = [];
    for (const step of open) {
      const taken = Math.min(left, step.level - step.line.due);
      if (taken <= 0) continue;
      const { read } = step.line;
      effect += atPrice(entry, read, step.level, digits) - atPrice(entry, read, step.level - taken, digits);
      step.level -= taken;
      left -= taken;
      lines.push(read.line.line);
    }
    return { ...part, effect, lines };
  });
}
