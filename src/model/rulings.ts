// Generated from schemas/rulings.schema.json by `npm run generate`: change the schema, not this file.

/** What the library decided about findings. */
export interface Rulings {
  /** Name and version of this format. */
  readonly format: 'reeltally/rulings/1';
  /** One entry for each finding that was decided. */
  readonly rulings: readonly Ruling[];
}

/** What the library decided about one finding. */
export interface Ruling {
  /** Id of the finding. */
  readonly finding: string;
  /** `vendor-corrects`: the finding counts. `accept-as-is`: it no longer counts, its frames are paid as they came. `collation-wrong`: the record was wrong; it no longer counts, its frames are paid. */
  readonly decision: 'vendor-corrects' | 'collation-wrong' | 'accept-as-is';
  /** Why, in the library's words; may be empty. */
  readonly note: string;
  /** Who decided; without a name the ruling does not count. */
  readonly by: string;
  /** When, `YYYY-MM-DD`; without a day the ruling does not count. */
  readonly on: string;
}
