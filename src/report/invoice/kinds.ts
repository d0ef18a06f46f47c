import type { InvoiceDifferenceKind } from '../../model/invoice.js';

/** Why an amount is another, in words for people. */
export const KIND_WORDS: Readonly<Record<InvoiceDifferenceKind, string>> = {
  'class-not-agreed': 'no class of the agreement',
  'amount-differs': 'multiplied wrongly',
  'rounding-differs': 'rounded otherwise',
  'price-differs': 'another price than agreed',
  'line-repeated': 'billed on two lines',
  disputed: 'disputed',
  'rescan-not-agreed': 'rescans not paid for',
  'not-returned': 'did not come',
  'held-back-billed': 'held back',
  'not-explained': 'not explained',
  'billed-too-few': 'not billed yet',
  'total-differs': 'added up wrongly',
};
