const ZERO = /^\p{M}$/u;
/** Letters that fill two columns of a terminal (Unicode UAX 11, wide and fullwidth; the scripts newspapers are set in). */
const WIDE = /^[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\u3000-\u303f\uff01-\uff60\uffe0-\uffe6]$/u;

/** Columns that a text fills in a terminal. */
export function columnsOf(text: string): number {
  let columns = 0;
  for (const letter of text) columns += ZERO.test(letter) ? 0 : WIDE.test(letter) ? 2 : 1;
  return columns;
}

/** A word in pieces of at most `width` columns, for words longer than a line. */
function pieces(word: string, width: number): readonly string[] {
  if (columnsOf(word) <= width) return [word];
  const parts: string[] = [];
  let part = '';
  for (const letter of word) {
    if (columnsOf(part + letter) > width) {
      parts.push(part);
      part = '';
    }
    part += letter;
  }
  return [...parts, part];
}

/** Lines of at most `width` columns: the first begins with `first`, the others with `rest`. */
export function wrap(text: string, width: number, first = '', rest = first): readonly string[] {
  const room = Math.max(20, width - Math.max(columnsOf(first), columnsOf(rest)));
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').flatMap((whole) => pieces(whole, room))) {
    if (line !== '' && columnsOf(line) + 1 + columnsOf(word) > room) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].map((content, index) => `${index === 0 ? first : rest}${content}`.trimEnd());
}

/** Rows in columns, two spaces apart; columns named in `right` are set flush right. */
export function table(rows: readonly (readonly string[])[], right: ReadonlySet<number>, indent = '  '): readonly string[] {
  const widths: number[] = [];
  for (const row of rows) row.forEach((text, at) => (widths[at] = Math.max(widths[at] ?? 0, columnsOf(text))));
  return rows.map((row) =>
    `${indent}${row
      .map((text, at) => {
        const space = ' '.repeat((widths[at] ?? 0) - columnsOf(text));
        return right.has(at) ? space + text : text + space;
      })
      .join('  ')}`.trimEnd(),
  );
}
