import { join } from 'node:path';
import { newest } from '../../../dossier/journal.js';
import { heldInvoice, invoiceFiles } from '../../invoice.js';
import type { Surroundings } from '../../surroundings.js';
import type { OpenDossier } from '../open.js';
import type { Link } from './again.js';

/** The links from an invoice and the results to what is due. */
export function invoiceLinks({ root, journal, layout }: OpenDossier, around: Surroundings): readonly Link[] {
  return layout.invoices.map((folder): Link => {
    const from = (newest(journal).get(`${folder}/invoice.json`)?.from ?? []).map(({ name }) => name);
    const at = (test: (name: string) => boolean): string => join(root, from.find(test) ?? '');
    return {
      folder,
      from,
      what: 'the reconciliation',
      make: async () => {
        const findings = at((name) => name.endsWith('/findings.json'));
        const invoice = at((name) => name.startsWith(`${folder}/`) && !name.endsWith('columns.json'));
        const columns = from.includes(`${folder}/columns.json`) ? { columns: join(root, folder, 'columns.json') } : {};
        return invoiceFiles(await heldInvoice({ invoice, findings, ...columns }, { ...around, say: () => undefined }));
      },
    };
  });
}
