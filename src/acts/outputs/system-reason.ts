const REASONS: ReadonlyMap<string, string> = new Map([
  ['ENOSPC', 'the disk is full'],
  ['EDQUOT', 'your share of the disk is used up'],
  ['EACCES', 'you have no permission to write there'],
  ['EPERM', 'you have no permission to write there'],
  ['EROFS', 'the disk can only be read'],
  ['ENOTDIR', 'a part of the path is a file, not a folder'],
  ['EEXIST', 'a file of that name is in the way'],
  ['EISDIR', 'a folder of that name is in the way'],
  ['ENAMETOOLONG', 'the name is too long'],
  ['EFBIG', 'the file would be larger than allowed'],
  ['EIO', 'the disk reports an error'],
  ['ENOENT', 'the folder is gone, or takes no files'],
]);

/** Why something could not be written, in words, by the system's error code. */
export function systemReason(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return REASONS.get(code) ?? (error instanceof Error ? error.message : String(error));
}
