/** Something about a sheet that is known once its rows are read, and that only the library can tell. */
export interface Doubt {
  readonly about: 'words' | 'phrases' | 'pages' | 'spreads' | 'duplicates' | 'retakes';
  /** The word or phrase, or our name of what is asked about. */
  readonly of: string;
  /** What a phrase means, by the key of all that mean the same. */
  readonly key?: string;
  readonly row: number;
  /** The cell that raises it. */
  readonly text: string;
}
