/** What a verification with `--if-changed` had before it, beside its result. */
export const SEEN_FILE = 'seen.json';
