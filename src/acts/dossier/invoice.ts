import { constants } from 'node:fs';
import { copyFile, mkdir } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { InvoiceResult } from '../../model/invoice.js';
import { UserMistake } from '../../read/mistake.js';
import { heldInvoice, invoiceFiles } from '../invoice.js';
import { systemReason } from '../outputs/system-reason.js';
import type { Surroundings } from '../surroundings.js';
import { newestDelivery } from './deliveries.js';
import { digestOfFile } from './digest.js';
import { alone } from './lock.js';
import { openDossier } from './open.js';
import { putIn, sourceIn, takeIn } from './write.js';

/** An invoice that was held against the newest delivery, and where both lie. */
export interface DossierInvoice {
  readonly result: InvoiceResult;
  readonly folder: string;
  readonly written: readonly string[];
}

/** Takes an invoice into the dossier and holds it against the newest delivery. Throws UserMistake; nothing is kept of an invoice that cannot be read. */
export async function invoiceInDossier(
  root: string,
  path: string,
  columns: string | undefined,
  around: Surroundings,
): Promise<DossierInvoice> {
  return alone(root, around, async () => {
    const dossier = await openDossier(root);
    const { run } = await newestDelivery(dossier);
    const findings = `${run.folder}/findings.json`;
    const result = await heldInvoice(
      { invoice: path, findings: join(root, findings), ...(columns === undefined ? {} : { columns }) },
      around,
    );
    const sha256 = await digestOfFile(path);
    const before = dossier.journal.find(
      ({ line }) => line?.name.startsWith('invoices/') === true && line.sha256 === sha256 && line.did === 'taken in',
    );
    if (before?.line != null)
      throw new UserMistake(`${path} is the invoice that was taken in on ${before.line.at} as ${before.line.name}. Each is held once.`);
    const folder = freeFolder(dossier.names, basename(path));
    const brought = [`${folder}/${basename(path)}`, ...(columns === undefined ? [] : [`${folder}/columns.json`])];
    try {
      await mkdir(join(root, folder), { recursive: true });
      await copyFile(path, join(root, brought[0] ?? ''), constants.COPYFILE_EXCL);
      if (columns !== undefined) await copyFile(columns, join(root, folder, 'columns.json'), constants.COPYFILE_EXCL);
    } catch (error) {
      throw new UserMistake(`${path} could not be taken into the dossier: ${systemReason(error)}.`);
    }
    await takeIn(dossier, brought, around);
    const known = await openDossier(root);
    const from = [...brought, findings].map((name) => sourceIn(known, name));
    const written = await putIn(root, [{ folder, files: invoiceFiles(result), from }], around);
    return { result, folder, written: [...brought, ...written] };
  });
}

/** A folder of the invoice's own, named after its file. */
function freeFolder(names: readonly string[], file: string): string {
  const plain = `invoices/${file.replace(/\.[^.]*$/, '').replace(/[^\p{L}\p{N}_.-]+/gu, '-')}`;
  const taken = (folder: string): boolean => names.some((name) => name.startsWith(`${folder}/`));
  if (!taken(plain)) return plain;
  for (let count = 2; ; count += 1) if (!taken(`${plain}-${String(count)}`)) return `${plain}-${String(count)}`;
}
