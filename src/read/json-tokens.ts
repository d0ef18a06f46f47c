/** A piece of a JSON text: a mark, a text with its quotes, or a word such as `12` or `true`, with the offset where it starts. */
export interface JsonToken {
  readonly piece: string;
  readonly offset: number;
}

/** Cuts a text into the pieces of JSON without judging their order; a text that is never closed reaches to the end. */
export function* jsonTokens(text: string): Generator<JsonToken> {
  const plain = /[\s\ufeff]*(?:[{}[\],:]|[^\s{}[\],:"]+|")/gy;
  for (let match = plain.exec(text); match; match = plain.exec(text)) {
    const whole = match[0];
    let piece = whole.trimStart();
    const offset = match.index + whole.length - piece.length;
    if (piece === '"') {
      // Found by jumping from quote to quote: a pattern for whole texts would use up the stack on a very long one.
      const end = closingQuote(text, offset);
      piece = text.slice(offset, end);
      plain.lastIndex = end;
    }
    yield { piece, offset };
  }
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
  for (const { piece, offset } of jsonTokens(text)) {
    const inside = open.at(-1);
    if (piece === '}' || piece === ']') {
      const pairs = inside === (piece === '}' ? '{' : '[');
      if (!pairs || (expected !== 'comma or end' && expected !== 'value or end' && expected !== 'name or end')) return offset;
      open.pop();
      expected = open.length === 0 ? 'nothing' : 'comma or end';
    } else if (piece === ',') {
      if (expected !== 'comma or end') return offset;
      expected = inside === '{' ? 'name' : 'value';
    } else if (piece === ':') {
      if (expected !== 'colon') return offset;
      expected = 'value';
    } else if (expected === 'name' || expected === 'name or end') {
      if (!piece.startsWith('"') || !isScalar(piece)) return offset;
      expected = 'colon';
    } else if (expected !== 'value' && expected !== 'value or end') {
      return offset;
    } else if (piece === '{' || piece === '[') {
      open.push(piece);
      expected = piece === '{' ? 'name or end' : 'value or end';
    } else {
      if (!isScalar(piece)) return offset;
      expected = open.length === 0 ? 'nothing' : 'comma or end';
    }
  }
  return text.length;
}

function isScalar(piece: string): boolean {
  try {
    JSON.parse(piece);
    return true;
  } catch {
    return false;
  }
}
