import { join } from 'node:path';
import { newest } from '../../../dossier/journal.js';
import { heldInvoices, invoiceFiles } from '../../invoice.js';
import type { Surroundings } from '../../surroundings.js';
import type { OpenDossier } from '../open.js';
import type { Link } from './again.js';

/** The links from an invoice and the results to what is due. */
export function invoiceLinks({ root, journal, layout }: OpenDossier, around: Surroundings): readonly Link[] {
  return layout.invoices.map((folder): Link => {
    const from = (newest(journal).get(`${folder}/invoice.json`)?.from ?? []).map(({ name }) => name);
    return {
      folder,
      from,
      what: 'the reconciliation',
      make: async () => {
        const [invoice = ''] = from.filter((name) => name.startsWith(`${folder}/`) && !name.endsWith('.reading.json'));
        const account = from.find((name) => name.endsWith('/account.json'));
        const held = await heldInvoices(
          {
            invoices: [join(root, invoice)],
            findings: from.filter((name) => name.endsWith('/findings.json')).map((name) => join(root, name)),
            account: account === undefined ? null : join(root, account),
            keep: { account: false, reading: false },
          },
          { ...around, say: () => undefined },
        );
        return invoiceFiles(held);
      },
    };
  });
}
