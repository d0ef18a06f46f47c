/** One line of an invoice as it was read; figures are decimal text with a point, null where the line has none. */
export interface InvoiceLine {
  /** The vendor's own number of the line, else its place. */
  readonly line: string;
  /** What the line says is billed, in the vendor's words. */
  readonly text: string;
  /** The price class that this means; null where the agreement has none of that name. */
  readonly class: string | null;
  readonly quantity: string | null;
  readonly unitPrice: string | null;
  /** Before tax, or with it where the price of the class has it in it. */
  readonly amount: string;
  /** Rate of the tax in percent. */
  readonly taxRate: string | null;
  /** The batch that the line names. */
  readonly batch: string | null;
  /** Which sending of the batch the line names; left out where it names none. */
  readonly delivery?: number;
  /** Row in the sheet, counted from 1. */
  readonly row: number;
}

/** A sum that stands on the invoice. */
export interface StatedSum {
  readonly row: number;
  /** In the vendor's words. */
  readonly text: string;
  readonly amount: string;
}

/** An invoice as it was read. */
export interface WrittenInvoice {
  /** The vendor's number of the invoice, else the name of its file. */
  readonly number: string;
  /** ISO 4217 code; empty where the invoice does not say. */
  readonly currency: string;
  readonly lines: readonly InvoiceLine[];
  /** Sums of the lines above each, since the last one before. */
  readonly subtotals: readonly (StatedSum & { readonly lines: readonly string[] })[];
  /** The sum before tax, the tax by rate, and what is to be paid; left out by the vendor where null or empty. */
  readonly net: StatedSum | null;
  readonly taxes: readonly (StatedSum & { readonly rate: string })[];
  readonly gross: StatedSum | null;
}

/** Why an invoice asks for another amount than is due. */
export type InvoiceDifferenceKind =
  | 'not-agreed'
  | 'batch-not-known'
  | 'quantity-not-given'
  | 'amount-differs'
  | 'rounding-differs'
  | 'price-differs'
  | 'billed-already'
  | 'disputed'
  | 'not-decided'
  | 'rescan-not-agreed'
  | 'not-returned'
  | 'held-back-billed'
  | 'not-explained'
  | 'subtotal-differs'
  | 'net-differs'
  | 'tax-differs'
  | 'tax-not-due'
  | 'total-differs';

/** One reason with what it comes to. The effects of all differences of an invoice add up to what is billed less what is due. */
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
export interface InvoiceLineResult extends InvoiceLine {
  /** Quantity times unit price of the invoice, rounded; null for a line without them. */
  readonly computed: string | null;
  /** How many units of the line are due, or would be. */
  readonly dueQuantity: number;
  /** Due quantity times agreed price (the billed price where none is agreed), rounded. */
  readonly due: string;
}

/** The tax of one rate: on what, and how much, as billed and as due. */
export interface InvoiceTax {
  /** Percent, as the invoice states it. */
  readonly rate: string;
  readonly onBilled: string;
  readonly billed: string;
  readonly onDue: string;
  readonly due: string;
}

/** One invoice held against what was accepted. */
export interface InvoiceResult {
  readonly format: 'reeltally/invoice/1';
  readonly number: string;
  readonly currency: string;
  /** Decimals of the currency's minor unit. */
  readonly minorDigits: number;
  /** Each line is rounded to the minor unit, halves away from zero. */
  readonly rounding: 'half-up';
  /** Deliveries that nobody has decided about and that are counted here as if they were accepted: nothing is released for them. */
  readonly asIfAccepted: readonly { readonly batch: string; readonly delivery: number }[];
  readonly lines: readonly InvoiceLineResult[];
  readonly taxes: readonly InvoiceTax[];
  readonly differences: readonly InvoiceDifference[];
  /** What the invoice asks for, tax included: its total, else the sum of its lines and taxes. */
  readonly billed: string;
  /** What the agreement makes of the lines, tax included. */
  readonly due: string;
  /** Billed less due. */
  readonly difference: string;
  /** What of it a person's decisions make due today. */
  readonly dueNow: string;
  /** What was released on this invoice so far. */
  readonly released: string;
}
