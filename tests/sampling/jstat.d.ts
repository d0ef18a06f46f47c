declare module 'jstat' {
  /** The two parts of the library that these tests use; it carries no types of its own. */
  export const jStat: {
    readonly hypgeom: { readonly cdf: (x: number, lot: number, bad: number, sample: number) => number };
    readonly beta: { readonly inv: (p: number, a: number, b: number) => number };
  };
}
