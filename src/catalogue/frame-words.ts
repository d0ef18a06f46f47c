import type { FrameRange } from '../model/findings.js';

/**
 * Frames that are too many to be named: how many they are and where they lie. Numbers that are all the same, and ends that are, say no range.
 * @param range its `list` holds the frames by name
 */
export function spanInWords({ from, to, list = [] }: FrameRange): string {
  const many = `${String(list.length)} frames`;
  if (from !== to) return `${many} between ${from} and ${to}`;
  return list.every((name) => name === from) ? `${many}, all numbered ${from}` : `${many} from ${from} on`;
}
