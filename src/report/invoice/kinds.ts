import type { InvoiceDifferenceKind } from '../../model/invoice.js';

/** Why an amount is another, in words for people. */
export const KIND_WORDS: Readonly<Record<InvoiceDifferenceKind, string>> = {
  'not-agreed': 'not agreed',
  'batch-not-known': 'a batch without a result',
  'quantity-not-given': 'no quantity given',
  'amount-differs': 'multiplied wrongly',
  'rounding-differs': 'rounded otherwise',
  'price-differs': 'another price than agreed',
  'billed-already': 'billed already',
  disputed: 'disputed',
  'not-decided': 'not accepted yet',
  'rescan-not-agreed': 'rescans not paid for',
  'not-returned': 'did not come',
  'held-back-billed': 'held back',
  'not-explained': 'not explained',
  'subtotal-differs': 'subtotal added up wrongly',
  'net-differs': 'added up wrongly',
  'tax-differs': 'tax reckoned otherwise',
  'tax-not-due': 'tax on what is not due',
  'total-differs': 'total added up wrongly',
};
