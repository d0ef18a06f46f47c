import { join } from 'node:path';
import { newest } from '../../../dossier/journal.js';
import type { DeliveryPlace } from '../../../dossier/places.js';
import { readJsonFile } from '../../../read/json.js';
import type { Seal } from '../../../report/decision/parts.js';
import { accountFile, decisionData, decisionOf, decisionPages } from '../../decide.js';
import { digestOf } from '../digest.js';
import type { OpenDossier } from '../open.js';
import type { Link } from './again.js';

/** The journal as a signed page names it, and the page. */
export interface SealedPage extends Seal {
  readonly page: string;
}

/** The digest that the page of each decision must show: that of the line before its own. */
export function sealsOf({ journal, layout }: Pick<OpenDossier, 'journal' | 'layout'>): readonly SealedPage[] {
  return layout.deliveries
    .flatMap(({ decisions }) => decisions)
    .flatMap((folder) => {
      const page = `${folder}/decision.html`;
      const at = journal.findIndex(({ line }) => line?.name === page);
      const before = journal[at - 1];
      return before === undefined ? [] : [{ page, line: before.number, sha256: digestOf(before.text) }];
    });
}

/** The links from what a decision rests on to the decision, and from it to its pages. */
export function decisionLinks(dossier: OpenDossier, { decisions }: DeliveryPlace): readonly Link[] {
  const { root, journal } = dossier;
  return decisions.flatMap((folder): readonly Link[] => {
    const name = `${folder}/decision.json`;
    const from = (newest(journal).get(name)?.from ?? []).map((source) => source.name);
    const seal = sealsOf(dossier).find(({ page }) => page === `${folder}/decision.html`) ?? null;
    const ends = (ending: string): readonly string[] => from.filter((one) => one.endsWith(ending)).map((one) => join(root, one));
    return [
      {
        folder,
        from,
        what: 'the decision',
        make: async () => {
          const { value: decision } = await readJsonFile(join(root, name), 'decision');
          const [findings = ''] = ends('/findings.json');
          const [account = null] = ends('/account.json');
          const { by, second, on, delivery, reason, release } = decision;
          const gave = release !== null && (release.parts.length > 0 || !/^[0.]+$/.test(release.amount));
          const made = await decisionOf({
            findings,
            samples: ends('/sample.json'),
            openDraws: ends('/draw.json'),
            account,
            begin: true,
            delivery,
            release: gave ? release.amount : null,
            also: (release?.named ?? []).map(({ invoice, line }) => `${invoice}:${line}`),
            reason,
            by,
            second,
            on,
          });
          return [decisionData(made.record), ...accountFile(made)];
        },
      },
      {
        folder,
        from: [name],
        what: 'the page of the decision',
        make: async () => decisionPages((await readJsonFile(join(root, name), 'decision')).value, seal),
      },
    ];
  });
}
