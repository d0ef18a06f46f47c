/** A fact of one frame. */
export type FrameFact = 'number' | 'reel' | 'page' | 'order' | 'section';

/** A fact of an issue as a whole. */
export type IssueFact = 'title' | 'date' | 'datePrinted' | 'edition' | 'editionLabel' | 'volume' | 'issueNumber';

/** The same facts where they are written a second time. */
export type CopyFact = 'folderDate' | 'folderEdition' | 'manifestDate' | 'manifestEdition';

/** A thing: what was scanned, what is delivered as a page, a document, a file, a listed target, a statement that something is not on the film. */
export type Thing = 'frame' | 'delivery' | 'document' | 'file' | 'target' | 'absence';

/** What an edit changes. */
export type What = FrameFact | IssueFact | CopyFact | Thing;

/** How it changes it. */
export type How = 'missing' | 'other' | 'exchanged' | 'shifted' | 'constant' | 'repeated' | 'reversed' | 'moved' | 'merged' | 'split';

/** How far it reaches. */
export type Scope = 'page' | 'issue' | 'run' | 'reel' | 'title' | 'batch';

/** Where it lies on the reel; `beside`: next to something odd on the film. What reaches over a reel or more lies nowhere in particular. */
export type Spot = 'head' | 'middle' | 'end' | 'splice' | 'beside' | 'all';

/** Which side is wrong. */
export type EditSide = 'return' | 'record';

/** One edit as data: what was done to the right side. With its film it is all that is needed to do it again. */
export interface Edit {
  readonly what: What;
  readonly how: How;
  readonly scope: Scope;
  readonly spot: Spot;
  readonly side: EditSide;
  /** Draws the unit and the wrong value. */
  readonly seed: number;
}

/** One of the few steps of which every edit consists. Each names its place by what lies there, not by counting, and has an inverse. */
export type Step =
  | {
      readonly do: 'set';
      readonly of: 'frame' | 'issue' | 'reel';
      readonly id: number;
      readonly field: string;
      readonly from: unknown;
      readonly to: unknown;
    }
  /** Adds to the numbers of frames, or to their places in an issue. */
  | { readonly do: 'add'; readonly field: 'frame' | 'order'; readonly ids: readonly number[]; readonly by: number }
  | { readonly do: 'put' | 'take'; readonly of: 'frame'; readonly reel: number; readonly after: number | null; readonly row: Row }
  | { readonly do: 'put' | 'take'; readonly of: 'issue'; readonly after: number | null; readonly row: Row };

/** A frame or issue of either side by its field names. */
export type Row = Record<string, unknown>;

/** The steps of an edit with the value that was drawn, for whoever reads of it. */
export interface Planned {
  readonly edit: Edit;
  readonly steps: readonly Step[];
  /** In words for people: which unit, what was drawn. */
  readonly params: Readonly<Record<string, string>>;
}
