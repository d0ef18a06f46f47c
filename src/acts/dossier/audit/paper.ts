import { UserMistake } from '../../../read/mistake.js';
import { digestOf } from '../digest.js';
import type { OpenDossier } from '../open.js';
import { sealsOf } from './decisions.js';
import { broken, type Looked, remark } from './outcome.js';

/** What a sentence about a digest on paper is about: no file of the folder, and so told whatever was asked. */
export const PAPER = 'the signed page';

/** So many digits tell one line of a journal from all others; nobody has to type the rest. */
const LEAST = 16;

/** Holds a digest that was typed from a signed page against the journal: paper cannot be changed from a desk. Throws UserMistake where it is none. */
export function paperLooked(dossier: OpenDossier, typed: string): Looked {
  const digest = typed.replace(/[\s:.-]/g, '').toLowerCase();
  if (!/^[0-9a-f]+$/.test(digest) || digest.length < LEAST || digest.length > 64)
    throw new UserMistake(
      `--digest: "${typed.slice(0, 80)}" is not a SHA-256 or the beginning of one. Type at least ${String(LEAST)} of the 64 digits (0 to 9, a to f) that stand on the signed page.`,
    );
  const seal = sealsOf(dossier).find(({ sha256 }) => sha256.startsWith(digest));
  if (seal !== undefined)
    return remark(
      [PAPER],
      `The digest from the signed page is that of ${seal.page} (line ${String(seal.line)} of the journal): paper and folder are the same.`,
    );
  const line = dossier.journal.find(({ text }) => digestOf(text).startsWith(digest));
  return line === undefined
    ? broken(
        [PAPER],
        `No line of journal.jsonl has the digest ${digest}, which stands on the signed page. Compare the digits once more; if they are right, the journal was written anew after the page was printed.`,
      )
    : broken(
        [PAPER],
        `The digest ${digest} is that of line ${String(line.number)} of journal.jsonl, and no decision's page must show that line: a decision that was signed is not in the folder any more.`,
      );
}
