/** Words beside yes and no for what is delivered and what is held back, in a column of that name: the contract of the record. */
export const DELIVERED: readonly string[] = ['deliver'];
export const HELD_BACK: readonly string[] = ['suppress', 'suppressed', 'hold back', 'held back'];
