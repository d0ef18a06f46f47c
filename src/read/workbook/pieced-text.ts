import { type PartElement, plainString } from './part-events.js';

/** A text of formatted pieces; `unstruck` is what is left without those that are struck through, left out where none is. */
export interface PiecedText {
  readonly text: string;
  readonly unstruck?: string;
}

/** Joins the pieces of one text, each of which has its format in front (ECMA-376 part 1, section 18.4.4); readings above it are left out. */
export function pieces(): {
  readonly open: (element: PartElement, path: readonly string[]) => void;
  readonly text: (text: string, path: readonly string[]) => void;
  readonly whole: () => PiecedText;
} {
  let all = '';
  let left = '';
  let struck = false;
  return {
    open: ({ name, attribute }, path) => {
      if (name === 'r') struck = false;
      else if (name === 'strike' && path.at(-2) === 'rPr') struck = !/^(?:0|false)$/.test(attribute('val') ?? '1');
    },
    text: (text, path) => {
      if (path.at(-1) !== 't' || path.includes('rPh')) return;
      all += text;
      if (!struck) left += text;
    },
    whole: () => ({ text: plainString(all), ...(all === left ? {} : { unstruck: plainString(left) }) }),
  };
}
