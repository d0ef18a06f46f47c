import { stat } from 'node:fs/promises';
import { dirname, relative, resolve, sep } from 'node:path';
import { auditOf } from '../acts/dossier/audit/index.js';
import { dossierHere } from '../acts/dossier/open.js';
import { auditText } from '../report/audit.js';
import { print, widthOf } from './streams.js';
import { surroundings } from './surroundings.js';

/** Options of `audit` as they come from the command line. */
export interface AuditArguments {
  readonly batch?: readonly string[];
  readonly digest?: string;
  readonly quiet?: true;
}

/** Makes every link of a dossier again and says what does not hold; gives 0 where all of it does, else 1. Throws UserMistake. */
export async function auditCommand(path: string, options: AuditArguments): Promise<number> {
  const { batch = null, quiet = false }: { readonly batch?: readonly string[] | null; readonly quiet?: boolean } = options;
  const found = await stat(path).catch(() => null);
  const isFolder = found?.isDirectory() !== false;
  const root = await dossierHere(isFolder ? path : dirname(path));
  const file = isFolder ? null : relative(root, resolve(path)).split(sep).join('/');
  const around = surroundings({ quiet });
  const audit = await auditOf(root, { batch, file, ...(options.digest === undefined ? {} : { digest: options.digest }) }, around).finally(
    around.end,
  );
  await print(auditText({ ...audit, file }, widthOf(process.stdout)));
  return audit.broken.length === 0 ? 0 : 1;
}
