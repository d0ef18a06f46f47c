import { systemReason } from '../acts/outputs/system-reason.js';
import { UserMistake } from '../read/mistake.js';
import { visible } from '../report/visible.js';

/** Keeps a broken stream from ending the program by itself; `print` hears of the error where it matters. */
export function hearStreamErrors(): void {
  const deaf = (): void => undefined;
  process.stdout.on('error', deaf);
  process.stderr.on('error', deaf);
}

const CLOSED: ReadonlySet<string> = new Set(['EPIPE', 'ERR_STREAM_DESTROYED']);

/**
 * Writes a result to stdout and waits until it is out. A reader that has seen enough (a closed pipe) is no error; a full disk is
 * a UserMistake.
 */
export async function print(result: string | Uint8Array): Promise<void> {
  await new Promise<void>((resolve, reject) => {
    process.stdout.write(result, (error) => {
      if (error == null || ('code' in error && CLOSED.has(String(error.code)))) resolve();
      else reject(new UserMistake(`The result could not be written to the standard output: ${systemReason(error)}.`));
    });
  });
}

/** Says something on stderr; file names in it are made harmless, line by line. */
export function tell(text: string): void {
  process.stderr.write(text.split('\n').map(visible).join('\n'));
}

/** Whether the stream may be coloured: a terminal, and nobody asked for none (no-color.org). */
export function coloured(stream: NodeJS.WriteStream): boolean {
  return stream.isTTY && (process.env.NO_COLOR ?? '') === '' && process.env.TERM !== 'dumb';
}

/** Columns for text on the stream: those of the terminal, within what reads well. */
export function widthOf(stream: NodeJS.WriteStream): number {
  // A terminal that does not know its width says 0.
  return stream.isTTY && stream.columns > 0 ? Math.min(100, Math.max(60, stream.columns)) : 80;
}

/** A line on the terminal that says how far the work has got, and how to take it away again. Says nothing where no person looks on. */
export function progressLine(quiet: boolean): { readonly say: (text: string) => void; readonly end: () => void } {
  if (quiet || !process.stderr.isTTY) return { say: () => undefined, end: () => undefined };
  // CR goes back to the start of the line, EL (ECMA-48 section 8.3.41) erases it.
  return {
    say: (text) => process.stderr.write(`\r\u001b[K${visible(text)}`),
    end: () => process.stderr.write('\r\u001b[K'),
  };
}
