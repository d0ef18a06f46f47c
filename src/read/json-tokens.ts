/**
 * Cuts a text into the pieces of JSON without judging their order and tells where each begins and ends: a mark, a text with its quotes, or a
 * word such as `12` or `true`. A text that is never closed reaches to the end. Stops where `visit` answers false.
 */
export function eachToken(text: string, visit: (from: number, to: number) => boolean): void {
  let at = 0;
  while (at < text.length) {
    const code = text.charCodeAt(at);
    if (isBlank(code)) {
      at += 1;
      continue;
    }
    const from = at;
    // A text is crossed by jumping from quote to quote: most of a file is texts.
    if (code === QUOTE) at = closingQuote(text, from);
    else if (isMark(code)) at = from + 1;
    else while (at < text.length && !endsWord(text.charCodeAt(at))) at += 1;
    if (!visit(from, at)) return;
  }
}

const QUOTE = 0x22;

/** White space as a pattern's `\s` has it, which is more than JSON allows: a fault is named by the piece behind it. */
function isBlank(code: number): boolean {
  if (code === 0x20 || (code >= 0x09 && code <= 0x0d)) return true;
  return code > 0x7f && (code === 0xfeff || /\s/.test(String.fromCharCode(code)));
}

function isMark(code: number): boolean {
  return code === 0x7b || code === 0x7d || code === 0x5b || code === 0x5d || code === 0x2c || code === 0x3a;
}

function endsWord(code: number): boolean {
  return code === QUOTE || isMark(code) || isBlank(code);
}

/** Offset behind the quote that closes the text opened at `start`. */
function closingQuote(text: string, start: number): number {
  for (let at = text.indexOf('"', start + 1); at >= 0; at = text.indexOf('"', at + 1)) {
    let slashes = 0;
    while (text[at - 1 - slashes] === '\\') slashes += 1;
    if (slashes % 2 === 0) return at + 1;
  }
  return text.length;
}

type Expected = 'value' | 'value or end' | 'name' | 'name or end' | 'colon' | 'comma or end' | 'nothing';

/** Offset of the first piece at which a text stops being JSON; its length where it only ends too early. For texts that JSON.parse refused. */
export function jsonFault(text: string): number {
  const open: ('{' | '[')[] = [];
  let expected: Expected = 'value';
  let fault = text.length;
  eachToken(text, (from, to) => {
    const piece = text.slice(from, to);
    if (fits(piece)) return true;
    fault = from;
    return false;
  });
  return fault;

  /** Takes a piece in where it can stand. */
  function fits(piece: string): boolean {
    const inside = open.at(-1);
    if (piece === '}' || piece === ']') {
      const pairs = inside === (piece === '}' ? '{' : '[');
      if (!pairs || (expected !== 'comma or end' && expected !== 'value or end' && expected !== 'name or end')) return false;
      open.pop();
      expected = open.length === 0 ? 'nothing' : 'comma or end';
    } else if (piece === ',') {
      if (expected !== 'comma or end') return false;
      expected = inside === '{' ? 'name' : 'value';
    } else if (piece === ':') {
      if (expected !== 'colon') return false;
      expected = 'value';
    } else if (expected === 'name' || expected === 'name or end') {
      if (!piece.startsWith('"') || !isScalar(piece)) return false;
      expected = 'colon';
    } else if (expected !== 'value' && expected !== 'value or end') {
      return false;
    } else if (piece === '{' || piece === '[') {
      open.push(piece);
      expected = piece === '{' ? 'name or end' : 'value or end';
    } else {
      if (!isScalar(piece)) return false;
      expected = open.length === 0 ? 'nothing' : 'comma or end';
    }
    return true;
  }
}

function isScalar(piece: string): boolean {
  try {
    JSON.parse(piece);
    return true;
  } catch {
    return false;
  }
}
