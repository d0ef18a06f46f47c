/** What a column of an invoice holds. */
export const INVOICE_COLUMNS = [
  'line',
  'class',
  'quantity',
  'unit price',
  'amount',
  'tax rate',
  'batch',
  'delivery',
  'invoice number',
  'currency',
] as const;
export type InvoiceColumn = (typeof INVOICE_COLUMNS)[number];

/** What a row of an invoice is, beside a line that bills something. */
export const INVOICE_ROWS = ['subtotal', 'net', 'tax', 'total', 'leave out'] as const;
export type InvoiceRow = (typeof INVOICE_ROWS)[number];

/** Letters and digits of a text, for comparing words. */
export function plainWord(text: string): string {
  return text
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}%]+/gu, '');
}

/** Heads as people write them in English, German, French, Dutch, Spanish and Italian: common practice, no source. */
const HEADS: readonly (readonly [column: InvoiceColumn, heads: string])[] = [
  ['line', 'line, line no, no, item no, pos, position, nr, lfd nr, ligne, regel, linea'],
  [
    'class',
    'class, description, item, service, article, product, details, what, leistung, bezeichnung, beschreibung, artikel, text, désignation, libellé, prestation, omschrijving, descripción, concepto, descrizione',
  ],
  ['quantity', 'quantity, qty, count, number of units, units, menge, anzahl, stück, quantité, qté, nombre, aantal, cantidad, quantità'],
  [
    'unit price',
    'unit price, price, price each, rate, price per unit, einzelpreis, stückpreis, preis, e-preis, ep, prix unitaire, prix unitaire ht, pu, pu ht, prijs, stuksprijs, precio, precio unitario, prezzo, prezzo unitario',
  ],
  [
    'amount',
    'amount, net amount, amount net, line total, total, sum, value, betrag, nettobetrag, gesamtpreis, gesamt, summe, g-preis, gp, netto, montant, montant ht, total ht, prix total, bedrag, totaal, importe, importo, totale',
  ],
  [
    'tax rate',
    'tax rate, vat, vat %, vat rate, tax %, tax, mwst, mwst %, mwst satz, ust, ust %, ust satz, steuersatz, tva, tva %, taux tva, taux de tva, btw, btw %, iva, iva %, gst, gst %',
  ],
  ['batch', 'batch, job, order, lot, charge, auftrag, commande'],
  ['delivery', 'delivery, delivery no, delivery number, sending, lieferung, lieferung nr, livraison, livraison no, numéro de livraison'],
  ['invoice number', 'invoice number, invoice no, invoice, rechnungsnummer, rechnung nr, numéro de facture, facture no, factuurnummer'],
  ['currency', 'currency, währung, devise, monnaie, valuta, moneda'],
];

const BY_HEAD: ReadonlyMap<string, InvoiceColumn> = new Map(
  HEADS.flatMap(([column, heads]) => heads.split(',').map((head) => [plainWord(head), column] as const)),
);

/** Heads of columns that repeat what others say and are passed over: the amount with tax, the tax itself. */
const REPEATS: ReadonlySet<string> = new Set(
  'gross, gross amount, amount gross, total incl vat, brutto, bruttobetrag, montant ttc, total ttc, tax amount, vat amount, mwst betrag, steuerbetrag, montant tva, unit, einheit, unité, date, datum'
    .split(',')
    .map((head) => plainWord(head)),
);

/** What a head probably means; null where nothing is usual. A unit in brackets, `Amount (EUR)`, does not change it. */
export function usualColumn(head: string): InvoiceColumn | null {
  return (
    BY_HEAD.get(plainWord(head)) ??
    BY_HEAD.get(plainWord(head.replace(/[([].*$/u, ''))) ??
    BY_HEAD.get(plainWord(head.replace(/\b(?:eur|chf|gbp|usd)\b|[€£$]/giu, ''))) ??
    null
  );
}

/** True for a column that only repeats what others say. */
export function isRepeat(head: string): boolean {
  return REPEATS.has(plainWord(head));
}

/** Words of rows that sum up: common practice, no source. The first pattern that fits decides. */
const ROWS: readonly (readonly [row: InvoiceRow, pattern: RegExp])[] = [
  ['leave out', /^(?:carried forward|brought forward|übertrag|report|à reporter|transport)\b/iu],
  ['subtotal', /^(?:sub-?\s?total|zwischensumme|sous-?\s?total|subtotaal)\b/iu],
  [
    'net',
    /^(?:total (?:net|ht|excl\S*|before (?:tax|vat)|hors taxes?)|net (?:total|amount|sum)|net$|summe netto|netto(?:betrag|summe)?\b|gesamt(?:betrag|summe)?,? netto|montant (?:total )?ht|total hors)/iu,
  ],
  [
    'total',
    /^(?:grand total|total$|total (?:due|gross|ttc|amount|incl\S*|to pay|payable|eur|chf|gbp|usd|general)|amount (?:due|payable)|invoice total|gesamt(?:betrag|summe)?(?:,? brutto)?$|rechnungs(?:betrag|summe)|end(?:betrag|summe)|zahlbetrag|zu zahlen|brutto(?:betrag|summe)?|summe(?: brutto)?$|montant (?:total )?ttc|net à payer|à payer|totaal|importe total|totale)/iu,
  ],
  [
    'tax',
    /^(?:(?:plus|zzgl\.?|incl\.?|inkl\.?|\+)\s*)?(?:\d{1,2}(?:[.,]\d{1,2})?\s*%\s*)?(?:vat|sales tax|tax|gst|mwst|mehrwertsteuer|ust|umsatzsteuer|tva|t\.v\.a|btw|iva)\b/iu,
  ],
];

/** What a row without quantity and price is by its words; null for a line. */
export function usualRow(text: string): InvoiceRow | null {
  const plain = text.trim().replace(/[:.]\s*$/u, '');
  return ROWS.find(([, pattern]) => pattern.test(plain))?.[0] ?? null;
}

/** The rate in percent that words name, such as `MwSt. 19 %`; null where they name none. */
export function rateIn(text: string): string | null {
  return /(\d{1,2}(?:[.,]\d{1,3})?)\s*%/u.exec(text)?.[1]?.replace(',', '.') ?? null;
}

/** True where words say that a paper is a credit note. */
export function saysCredit(text: string): boolean {
  return /\b(?:credit note|credit memo|gutschrift|stornorechnung|avoir|note de crédit|creditnota|nota de crédito|nota di credito)\b/iu.test(
    text,
  );
}

/** Words before the number of an invoice. */
export const NUMBER_WORDS =
  /^(?:invoice|credit note|rechnung|gutschrift|facture|avoir|factuur|factura|fattura)\s*(?:s?-?\s?(?:number|no|nr|nummer|numéro|n°|nº|#))\.?\s*:?\s*(.*)$|^(?:rechnungs-?nr|rechnungsnummer|factuurnummer|gutschriftsnummer|n° de facture|numéro de facture)\.?\s*:?\s*(.*)$/iu;

/** Currencies that a sign or code names beyond doubt. */
const CURRENCIES: readonly (readonly [code: string, pattern: RegExp])[] = [
  ['EUR', /€|\bEUR\b|\bEuro\b/u],
  ['GBP', /£|\bGBP\b/u],
  ['CHF', /\bCHF\b/u],
  ['USD', /\bUSD\b|US\$/u],
  ['CAD', /\bCAD\b|C\$/u],
  ['SEK', /\bSEK\b/u],
  ['NOK', /\bNOK\b/u],
  ['DKK', /\bDKK\b/u],
  ['PLN', /\bPLN\b|zł/u],
  ['JPY', /\bJPY\b/u],
];

/** Signs of several currencies each (ISO 4217 codes; from memory, the commonest that use the sign). */
const SHARED_SIGNS: readonly (readonly [sign: string, pattern: RegExp, codes: readonly string[]])[] = [
  ['$', besideFigure('\\$'), ['USD', 'CAD', 'AUD', 'NZD', 'SGD', 'HKD', 'MXN', 'ARS', 'CLP', 'COP', 'BRL']],
  ['¥', besideFigure('¥'), ['JPY', 'CNY']],
  ['kr', besideFigure('kr\\.?'), ['SEK', 'NOK', 'DKK', 'ISK']],
];

function besideFigure(sign: string): RegExp {
  return new RegExp(`(?<!\\p{L})${sign}\\s?[-(]?\\d|\\d\\s?${sign}(?!\\p{L})`, 'iu');
}

/** Signs in a text that are none of this currency; empty where the currency is not known. */
export function strangeSigns(text: string, currency: string): readonly string[] {
  if (currency === '') return [];
  return SHARED_SIGNS.filter(([, pattern, codes]) => pattern.test(text) && !codes.includes(currency)).map(([sign]) => sign);
}

/** Currencies that a text names. */
export function currenciesIn(text: string): readonly string[] {
  return CURRENCIES.filter(([, pattern]) => pattern.test(text)).map(([code]) => code);
}
