import { readJsonFile } from '../read/json.js';
import { checkDestination, deliver } from './deliver.js';
import { chosenFormats } from './formats.js';

/** Options of `render` as they come from the command line. */
export interface RenderArguments {
  readonly format?: readonly string[];
  readonly out?: string;
  readonly batch?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

/** Renders a saved result again; gives 0 when that was done, whatever the verdict in it. */
export async function renderCommand(path: string, options: RenderArguments): Promise<number> {
  const folder = options.out ?? null;
  const destination = {
    formats: chosenFormats(options.format, folder !== null),
    folder,
    replace: options.replace ?? false,
    quiet: options.quiet ?? false,
    ...(options.batch === undefined ? {} : { batch: options.batch }),
  };
  await checkDestination(destination);
  const { value } = await readJsonFile(path, 'findings');
  await deliver(value, destination);
  return 0;
}
