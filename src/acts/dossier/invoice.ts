import { constants } from 'node:fs';
import { access, copyFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { newest } from '../../dossier/journal.js';
import { UserMistake } from '../../read/mistake.js';
import { invoiceReadingPath } from '../inputs/invoice-file.js';
import { type HeldInvoices, heldInvoices, INVOICE_FILES, invoiceFiles } from '../invoice.js';
import { makeFolder } from '../outputs/make-folder.js';
import { systemReason } from '../outputs/system-reason.js';
import type { Surroundings } from '../surroundings.js';
import { copyAccount, lastAccount } from './account.js';
import { deliveriesOf, newestDelivery } from './deliveries.js';
import { digestOfFile } from './digest.js';
import { alone } from './lock.js';
import { type OpenDossier, openDossier } from './open.js';
import { putIn, sourceIn, takeIn } from './write.js';

/** An invoice that was held against what is due, and where both lie. */
export interface DossierInvoice {
  readonly held: HeldInvoices;
  readonly folder: string;
  readonly written: readonly string[];
}

/** Takes an invoice into the dossier and holds it against what is due. Throws UserMistake; nothing is kept of an invoice that cannot be read. */
export async function invoiceInDossier(root: string, path: string, around: Surroundings): Promise<DossierInvoice> {
  return alone(root, around, async () => {
    const dossier = await openDossier(root);
    await newestDelivery(dossier);
    await refuseTwice(dossier, path);
    const findings = (await deliveriesOf(dossier)).map(({ run }) => `${run.folder}/findings.json`);
    const account = lastAccount(dossier);
    const held = await heldInvoices(
      {
        invoices: [path],
        findings: findings.map((name) => join(root, name)),
        account: account === null ? null : join(root, account),
        keep: { account: false, reading: true },
      },
      around,
    );
    const folder = freeFolder(dossier.names, basename(path));
    const reading = invoiceReadingPath(path);
    const own = `${folder}/${nameInDossier(path)}`;
    const brought = [own];
    try {
      await makeFolder(join(root, folder));
      await copyFile(path, join(root, own), constants.COPYFILE_EXCL);
      if (await isThere(reading)) {
        const beside = invoiceReadingPath(own);
        await copyFile(reading, join(root, beside), constants.COPYFILE_EXCL);
        brought.push(beside);
      }
    } catch (error) {
      throw new UserMistake(`${path} could not be taken into the dossier: ${systemReason(error)}.`);
    }
    await takeIn(dossier, brought, around);
    const known = await openDossier(root);
    const from = [...brought, ...findings, ...(account === null ? [] : [account])].map((name) => sourceIn(known, name));
    const written = await putIn(root, [{ folder, files: invoiceFiles(held), from }], around);
    await copyAccount(root, `${folder}/account.json`, around);
    return { held, folder, written: [...brought, ...written] };
  });
}

/** An invoice is held once, unless it is to be read otherwise than it was: then its lines take the place of the earlier ones in the account, as long as nothing was released on them. */
async function refuseTwice({ journal }: OpenDossier, path: string): Promise<void> {
  const sha256 = await digestOfFile(path);
  const before = journal.findLast(
    ({ line }) => line?.name.startsWith('invoices/') === true && line.sha256 === sha256 && line.did === 'taken in',
  )?.line;
  if (before == null) return;
  const reading = invoiceReadingPath(path);
  const then = newest(journal).get(invoiceReadingPath(before.name))?.sha256;
  if ((await isThere(reading)) && then !== (await digestOfFile(reading))) return;
  throw new UserMistake(
    `${path} is the invoice that was taken in on ${before.at} as ${before.name}. Each is held once; to have it read otherwise, say how in ${reading} first (reeltally help invoice).`,
  );
}

async function isThere(path: string): Promise<boolean> {
  try {
    await access(path);
    return true;
  } catch {
    return false;
  }
}

/** The name under which an invoice lies in the dossier: its own, unless that is the name of one of the files that are written beside it. */
function nameInDossier(path: string): string {
  const name = basename(path);
  return INVOICE_FILES.has(name.toLowerCase()) ? `vendor-${name}` : name;
}

/** A folder of the invoice's own, named after its file. */
function freeFolder(names: readonly string[], file: string): string {
  const plain = `invoices/${file.replace(/\.[^.]*$/, '').replace(/[^\p{L}\p{N}_.-]+/gu, '-')}`;
  const taken = (folder: string): boolean => names.some((name) => name.startsWith(`${folder}/`));
  if (!taken(plain)) return plain;
  for (let count = 2; ; count += 1) if (!taken(`${plain}-${String(count)}`)) return `${plain}-${String(count)}`;
}
