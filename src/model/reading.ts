// Generated from schemas/reading.schema.json by `npm run generate`: change the schema, not this file.

/** How a library's own workbook is read as a collation record: `NAME.reading.json` beside it, or `record.reading.json` for all sheets of a folder. */
export interface ReadingFile {
  /** Name and version of this format. */
  readonly format: 'reeltally/reading/1';
  /** Sheets by name: what each is. */
  readonly sheets?: {
    readonly [k: string]: SheetReading;
  };
  /** Columns by the head that stands above them: what each is. */
  readonly columns?: {
    readonly [k: string]: ColumnReading;
  };
  /** Titles as the sheet writes them -> identifiers. An empty name stands for rows in which no title is written. */
  readonly titles?: {
    readonly [k: string]: string;
  };
  /** Words of the sheet -> ours, by the column that holds them, such as `kind` -> `bad frame` -> `void`. `not on the film` as a kind makes the row an absent page or issue. */
  readonly words?: {
    readonly [k: string]: {
      readonly [k: string]: string;
    };
  };
  /** How days are written that are not written YYYY-MM-DD. */
  readonly dates?: {
    /** Order of the parts where all are figures. Left out: only days that can be read one way are read. */
    readonly order?: 'day month year' | 'month day year';
    /** The first two digits of years of which two digits are written. */
    readonly century?: '16' | '17' | '18' | '19' | '20';
    /** The year of days that are written without one, where neither a column nor a line between the rows gives it. */
    readonly year?: string;
    /** The calendar of the titles of which the record says nothing else: `gregorian`, or `julian-until DATE` with the last day by the Julian calendar. */
    readonly calendar?: string;
  };
  /** What a ditto mark means: the cell above (`as above`), or itself (`as written`). */
  readonly ditto?: 'as above' | 'as written';
  /** Where no frame number stands: `counted` from the first row of a reel on. */
  readonly frames?: 'counted';
  /** What a number alone means in a column of pages: `count` (8 is 1-8), or `page` (8 is page 8). */
  readonly loneNumbers?: 'count' | 'page';
  /** What a column of pages tells where another cell says that some of them are missing: what was `published`, the missing pages among them, or what was `filmed`. What the frames to the next row or the usual number of pages show comes first. */
  readonly pages?: 'published' | 'filmed';
  /** What a row of an issue holds that has a first and a last frame and no pages: pages as many as frames, numbered from 1 (`a page each`), or nothing that is known (`not known`). */
  readonly noPages?: 'a page each' | 'not known';
  /** What two pages that are written as a range are, `1-2,3-4`, where the number of frames does not show it: on `one frame`, or on `a frame each`. */
  readonly spreads?: 'one frame' | 'a frame each';
  /** What becomes of frames that repeat another where no column says whether they are delivered: `held back`, or `delivered` beside the other. */
  readonly duplicates?: 'held back' | 'delivered';
  /** Which of two frames is delivered where one was filmed to replace the other and no column says it: `the retake`, the other held back, or `both`. */
  readonly retakes?: 'the retake' | 'both';
  /** Colours of cells, `font FF0000` for a colour of their text -> what they say of the row. */
  readonly colours?: {
    readonly [k: string]: 'nothing' | 'held back' | 'not on the film' | 'blank' | 'target' | 'void';
  };
  /** What the comments on cells are: `notes` of their rows, or `nothing`. */
  readonly comments?: 'notes' | 'nothing';
  /** What becomes of rows that are struck through. */
  readonly struck?: 'leave out' | 'keep';
  /** Phrases in notes that state a fact -> taken as that fact as well, or a note and no more. */
  readonly phrases?: {
    readonly [k: string]: 'fact' | 'note';
  };
  /** Rows that hold one text and nothing else, by that text. `date of the rows below`: its year, or month, completes the days below it. */
  readonly rows?: {
    readonly [k: string]: 'leave out' | 'keep' | 'date of the rows below';
  };
  /** How a vendor's invoice is read, where the file beside this one is an invoice. */
  readonly invoice?: InvoiceReading;
  /** The library's own columns that may leave the house, by their heads. */
  readonly leaves?: readonly string[];
  /** Questions that are not answered. While there is one the workbook is not read. */
  readonly open?: readonly OpenQuestion[];
}

/** How an invoice is read: what its heads and words mean and how its figures are written. */
export interface InvoiceReading {
  /** Heads as the vendor writes them -> what the column holds. */
  readonly columns?: {
    readonly [k: string]:
      | 'line'
      | 'class'
      | 'quantity'
      | 'unit price'
      | 'amount'
      | 'tax rate'
      | 'batch'
      | 'delivery'
      | 'invoice number'
      | 'currency'
      | 'nothing';
  };
  /** Words of lines -> the price class of the agreement that they mean, or `not agreed`. */
  readonly classes?: {
    readonly [k: string]: string;
  };
  /** Words of rows -> what the row is. */
  readonly rows?: {
    readonly [k: string]: 'line' | 'subtotal' | 'net' | 'tax' | 'total' | 'leave out';
  };
  /** The mark before the decimals: `point` for 1234.50, `comma` for 1234,50. */
  readonly decimal?: 'point' | 'comma';
  /** Rate of the tax in percent, where the invoice states a tax and no rate. */
  readonly taxRate?: string;
  /** true: a credit note whose amounts are written without a minus. */
  readonly credit?: boolean;
  /** The vendor's number of the invoice, where the sheet does not give it. */
  readonly number?: string;
  /** ISO 4217 code, where the sheet does not give it. */
  readonly currency?: string;
}

/** How one sheet is read. */
export interface SheetReading {
  /** What the sheet holds: a row per frame, a row per issue, titles, reels, or nothing of a record. */
  readonly is: 'frames' | 'issues' | 'titles' | 'reels' | 'nothing';
  /** The row in which the heads stand, as a spreadsheet program counts. Left out: where they are found. */
  readonly heads?: number;
  /** Number of the reel, where no column gives it. */
  readonly reel?: string;
}

/** How one column is read. */
export interface ColumnReading {
  /** Our name of the column, several parted by commas for a joined one (`volume, issue number`), `note`, or `nothing`. */
  readonly is: string;
  /** What an empty cell below another means in a row of a page: the same (`as above`), or `nothing`. */
  readonly below?: 'as above' | 'nothing';
}

/** A question that only the library can answer. Write the answer here, or where `about` and `of` say, and run `collation read` again. */
export interface OpenQuestion {
  /** The part of the reading that the answer belongs to. */
  readonly about:
    | 'sheets'
    | 'reel'
    | 'columns'
    | 'below'
    | 'titles'
    | 'words'
    | 'order'
    | 'century'
    | 'year'
    | 'calendar'
    | 'ditto'
    | 'frames'
    | 'loneNumbers'
    | 'pages'
    | 'noPages'
    | 'spreads'
    | 'duplicates'
    | 'retakes'
    | 'colours'
    | 'comments'
    | 'struck'
    | 'phrases'
    | 'rows';
  /** What is asked about, as the sheet writes it. */
  readonly of: string;
  /** Our name of the column in which a word stands. */
  readonly field?: string;
  /** The question. */
  readonly asks: string;
  /** The answers there are; empty where any text is one. */
  readonly choices: readonly string[];
  /** The likely answer; null where there is none. */
  readonly proposed: string | null;
  /** The answer, once it is known. */
  readonly answer: string | null;
}
