import type { Token } from './tokens.js';

/** What stands between two marks of a cell: a range is one label text here. */
export interface Part {
  readonly joined: ',' | 'and' | '+' | ';';
  readonly pieces: readonly Piece[];
}

/** A token that says something by itself. */
export type Piece = Exclude<Token, { readonly is: 'mark' | 'unknown' }>;

/** The parts between the marks, ranges put together; null where a mark stands where none can. */
export function partsIn(tokens: readonly Token[]): readonly Part[] | null {
  const parts: { joined: Part['joined']; pieces: Piece[] }[] = [{ joined: ';', pieces: [] }];
  for (let at = 0; at < tokens.length; at += 1) {
    const token = tokens[at];
    const part = parts.at(-1);
    if (token === undefined || part === undefined || token.is === 'unknown') return null;
    if (isTo(token)) {
      const before = part.pieces.at(-1);
      // `S. 1 - S. 4` names the page twice.
      const skip = isPageWord(tokens[at + 1]) ? 2 : 1;
      const after = tokens[at + skip];
      if (before?.is === 'label' && after?.is === 'label' && !before.text.includes('-')) {
        part.pieces.splice(-1, 1, { is: 'label', text: `${before.text}-${after.text}` });
        at += skip;
      } else if (token.is === 'word') return null;
      else parts.push({ joined: ';', pieces: [] });
    } else if (token.is === 'mark') parts.push({ joined: token.text === '-' ? ';' : token.text, pieces: [] });
    else {
      // `1-5 except 3`: what stands in front is there, and what follows is not. `8 pp. Beilage 2 pp.` names the pages of both.
      const splits =
        token.is === 'word' &&
        (token.word.is === 'absent' || token.word.is === 'supplement') &&
        hasLabel(part.pieces) &&
        tokens[at + 1]?.is !== 'mark' &&
        hasLabel(tokens.slice(at));
      if (splits) parts.push({ joined: ';', pieces: [token] });
      else part.pieces.push(token);
    }
  }
  return parts.filter(({ pieces }) => pieces.length > 0);
}

function hasLabel(pieces: readonly Token[]): boolean {
  const end = pieces.findIndex(({ is }) => is === 'mark');
  return pieces.slice(0, end < 0 ? undefined : end).some(({ is }) => is === 'label');
}

function isTo(token: Token): boolean {
  return (token.is === 'mark' && token.text === '-') || (token.is === 'word' && token.word.is === 'to');
}

function isPageWord(token: Token | undefined): boolean {
  return token?.is === 'word' && token.word.is === 'page';
}
