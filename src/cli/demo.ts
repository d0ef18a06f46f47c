import { demonstration } from '../acts/demo.js';
import { render } from '../report/index.js';
import { coloured, print, tell, widthOf } from './streams.js';
import { surroundings } from './surroundings.js';

/** Options of `demo` as they come from the command line. */
export interface DemoArguments {
  readonly replace?: true;
  readonly quiet?: true;
}

/** Writes the demonstration into a folder, prints the summary of its verification and says how to do the same by hand. Gives 0 when that was done, whatever the verdict. */
export async function demoCommand(folder: string, options: DemoArguments): Promise<number> {
  const { replace = false, quiet = false } = options;
  // The few files of the demonstration are read at once: a line of progress would only flicker.
  const { record, agreement, batch, result } = await demonstration(folder, replace, surroundings({ quiet: true }));
  await print(await render(result, 'text', { colour: coloured(process.stdout), width: widthOf(process.stdout) }));
  if (!quiet) {
    tell(`\nThe record, the return and these results are in ${folder}. The same again, by hand:\n`);
    tell(`  reeltally verify --collation ${quoted(record)} --agreement ${quoted(agreement)} --batch ${quoted(batch)}\n`);
  }
  return 0;
}

/** A path as a shell takes it. */
const quoted = (path: string): string => (/^[\w./-]+$/.test(path) ? path : `'${path.replaceAll("'", `'\\''`)}'`);
