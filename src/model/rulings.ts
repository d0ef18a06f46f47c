/** What the library decided about findings. */
export interface Rulings {
  readonly format: 'reeltally/rulings/1';
  readonly rulings: readonly Ruling[];
}

export interface Ruling {
  readonly finding: string;
  /** `vendor-corrects`: it counts. `accept-as-is`: it no longer counts. `collation-wrong`: the record was wrong. */
  readonly decision: 'vendor-corrects' | 'collation-wrong' | 'accept-as-is';
  readonly note: string;
  readonly by: string;
  readonly on: string;
}
