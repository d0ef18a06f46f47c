/** One line of an invoice as it is written there; every figure is text until it has been read as a decimal. */
export interface InvoiceLine {
  /** The vendor's own number of the line. */
  readonly line: string;
  /** Price class that the line is billed in. */
  readonly class: string;
  readonly quantity: string;
  readonly unitPrice: string;
  readonly amount: string;
  /** Row in the sheet, counted from 1. */
  readonly row: number;
}

/** What an invoice says as a whole. */
export interface InvoiceFacts {
  /** The vendor's number of the invoice; may be empty. */
  readonly number: string;
  /** ISO 4217 code; empty where the invoice does not say. */
  readonly currency: string;
  /** Decimal text; null where the invoice gives no total. */
  readonly total: string | null;
}

/** Why an invoice asks for another amount than is due. */
export type InvoiceDifferenceKind =
  | 'class-not-agreed'
  | 'amount-differs'
  | 'rounding-differs'
  | 'price-differs'
  | 'line-repeated'
  | 'disputed'
  | 'rescan-not-agreed'
  | 'not-returned'
  | 'held-back-billed'
  | 'not-explained'
  | 'billed-too-few'
  | 'total-differs';

/** One reason with what it comes to. The effects of all differences add up to what is billed less what is due. */
export interface InvoiceDifference {
  readonly kind: InvoiceDifferenceKind;
  /** The vendor's numbers of the lines concerned. */
  readonly lines: readonly string[];
  /** The price class, or null where the difference concerns none. */
  readonly class: string | null;
  /** How many units are concerned, or null where the difference is about money alone. */
  readonly quantity: number | null;
  /** Decimal text: positive where too much is billed, negative where too little, zero where the sum is untouched. */
  readonly effect: string;
  /** Ids of the findings that it goes back to. */
  readonly findings: readonly string[];
  readonly says: string;
}

/** One line as billed and as due. */
export interface InvoiceLineResult {
  readonly line: string;
  readonly row: number;
  readonly class: string;
  readonly quantity: string;
  readonly unitPrice: string;
  readonly amount: string;
  /** Quantity times unit price of the invoice, rounded half up. */
  readonly computed: string;
  /** How many units of the line are due. */
  readonly dueQuantity: number;
  /** Due quantity times agreed price (the billed price where none is agreed), rounded half up. */
  readonly due: string;
}

/** One price class: counts of units, and the money. */
export interface InvoiceClass {
  readonly class: string;
  /** The agreed price of one, or null where the agreement has none. */
  readonly unitPrice: string | null;
  readonly billed: number;
  readonly record: number;
  readonly returned: number;
  readonly accepted: number;
  readonly disputed: number;
  /** Frames scanned again that this class pays for beside the accepted ones. */
  readonly rescans: number;
  /** Units of the billed ones that are due. */
  readonly due: number;
  readonly amountBilled: string;
  readonly amountDue: string;
}

/** An invoice held against a verified return. */
export interface InvoiceResult {
  readonly format: 'reeltally/invoice/1';
  /** The verified return it was held against. */
  readonly batch: string;
  readonly delivery: number;
  readonly verifiedAt: string;
  readonly number: string;
  readonly currency: string;
  /** Decimals of the currency's minor unit. */
  readonly minorDigits: number;
  /** Each line is rounded to the minor unit, halves away from zero. */
  readonly rounding: 'half-up';
  readonly classes: readonly InvoiceClass[];
  readonly lines: readonly InvoiceLineResult[];
  readonly differences: readonly InvoiceDifference[];
  /** What the invoice asks for: its total, else the sum of its lines. */
  readonly billed: string;
  /** What the agreement makes of the lines and the accepted counts. */
  readonly due: string;
  /** Billed less due. */
  readonly difference: string;
}

/** How the columns and figures of a vendor's invoice are to be read. */
export interface InvoiceColumns {
  readonly format: 'reeltally/columns/1';
  /** Header dictionary: the vendor's column head -> ours. */
  readonly columns?: Readonly<Record<string, string>>;
  /** `point`: 1234.50; `comma`: 1234,50 or 1.234,50. */
  readonly decimal?: 'point' | 'comma';
}
