import { UserMistake } from './mistake.js';

/** Throws UserMistake where two columns have one name, whatever its case, spaces, `_` and `-`. `where` is the place of the row of names, `column` the name of a place in it. */
export function refuseSameHeads(heads: readonly string[], where: string, column: (index: number) => string): void {
  const seen = new Map<string, number>();
  heads.forEach((head, index) => {
    const key = head.toLowerCase().replace(/[\s_-]/g, '');
    if (key === '') return;
    const before = seen.get(key);
    if (before !== undefined)
      throw new UserMistake(
        `${where}: the columns ${column(before)} and ${column(index)} are both called "${head.trim()}"; rename or remove one of them.`,
      );
    seen.set(key, index);
  });
}
