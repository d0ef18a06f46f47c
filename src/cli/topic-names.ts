/** What can be read with `help WORD` besides the usage of commands. */
export const TOPIC_NAMES = [
  'agreement',
  'batches',
  'codes',
  'dossier',
  'formats',
  'invoice',
  'ledger',
  'profiles',
  'record',
  'sampling',
] as const;
