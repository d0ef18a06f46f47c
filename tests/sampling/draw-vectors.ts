/**
 * Published draws of the counter scheme: R. L. Rivest, sampler.py of 14 November 2011 (MIT licence); the ten with replacement are
 * tests.json 0.2.0-alpha of rivest-sampler-tests (BSD-3), the list of 47 is the transcript in sampler.py, where counter 32 gives 611 again.
 */
export const withReplacement: readonly { readonly seed: string; readonly total: number; readonly numbers: readonly number[] }[] = [
  { seed: '1', total: 1000, numbers: [97, 89, 163] },
  { seed: '0', total: 2, numbers: [1, 1, 2] },
  { seed: '0', total: 1000, numbers: [905, 573, 160] },
  { seed: '0000000000', total: 1000, numbers: [978, 359, 132] },
  { seed: '999999999999999999999999', total: 1000, numbers: [544, 800, 654] },
  { seed: '3546311556112163624615351222', total: 876, numbers: [740, 180, 264, 789, 238] },
  { seed: 'abcde', total: 1000, numbers: [247, 427, 157] },
  { seed: 'abc123', total: 1000, numbers: [455, 764, 629] },
  { seed: 'snowman: \u2603', total: 1000, numbers: [634, 56, 46] },
  { seed: '\ud83d\ude00', total: 1000, numbers: [596, 415, 303, 11, 141] },
];

/** The transcript of 47 numbers from 1 to 876. */
export const transcript = {
  seed: '3546311556112163624615351222',
  total: 876,
  lastCounter: 48,
  numbers: [
    740, 180, 264, 789, 238, 448, 272, 611, 761, 208, 596, 88, 160, 113, 766, 427, 184, 816, 653, 411, 779, 331, 339, 487, 594, 235, 65,
    527, 821, 490, 461, 251, 471, 414, 174, 567, 300, 134, 144, 357, 786, 792, 218, 550, 787, 537, 197,
  ],
} as const;

/** Computed beforehand by the same rule in another language (Python), not published. */
export const computed: readonly {
  readonly seed: string;
  readonly total: number;
  readonly lastCounter: number;
  readonly numbers: readonly number[];
}[] = [
  {
    seed: '31415926535897932384626433',
    total: 850,
    lastCounter: 20,
    numbers: [411, 45, 456, 89, 485, 466, 259, 536, 255, 518, 64, 582, 79, 23, 69, 118, 728, 838, 244, 791],
  },
  {
    seed: '31415926535897932384626433',
    total: 850,
    lastCounter: 32,
    numbers: [
      411, 45, 456, 89, 485, 466, 259, 536, 255, 518, 64, 582, 79, 23, 69, 118, 728, 838, 244, 791, 335, 122, 817, 98, 796, 82, 638, 394,
      173, 203, 414, 258,
    ],
  },
  { seed: 'reel-0001', total: 20, lastCounter: 66, numbers: [16, 18, 2, 6, 5, 1, 3, 20, 9, 17, 11, 12, 19, 8, 15, 13, 14, 10, 4, 7] },
];
