import { join } from 'node:path';
import { decisionFolder } from '../../dossier/places.js';
import type { DecisionRecord } from '../../model/decision.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { listHash } from '../../sampling/draw.js';
import { lotsOf } from '../../sampling/lots.js';
import { accountFile, type DecisionFiles, decisionData, decisionOf, decisionPages } from '../decide.js';
import type { Surroundings } from '../surroundings.js';
import { copyAccount, lastAccount } from './account.js';
import { auditOf } from './audit/index.js';
import { type Delivery, deliveriesOf, newestDelivery } from './deliveries.js';
import { digestOf } from './digest.js';
import { alone } from './lock.js';
import { type OpenDossier, openDossier } from './open.js';
import { unread } from './sources.js';
import { putIn, sourceIn } from './write.js';

/** What is decided, by whom, on which day. */
export type DossierDecideWish = Pick<DecisionFiles, 'delivery' | 'release' | 'also' | 'reason' | 'by' | 'second' | 'on'>;

/** What was decided, and where it lies. */
export interface DossierDecided {
  readonly record: DecisionRecord;
  readonly folder: string;
  readonly written: readonly string[];
}

/** So many links that do not hold are told at once. */
const TOLD = 10;

/** Decides about the newest delivery from what lies in the dossier; a broken chain is refused. Throws UserMistake. */
export async function decideInDossier(root: string, wish: DossierDecideWish, around: Surroundings): Promise<DossierDecided> {
  return alone(root, around, async () => {
    await refuseBroken(root, around);
    const dossier = await openDossier(root);
    const delivery = await newestDelivery(dossier);
    const { place, run, file } = delivery;
    const late = await unread(dossier, file, await deliveriesOf(dossier));
    if (late.length > 0) around.say(`this decision does not rest on ${late.join(', ')}: no verification has read it yet.`, 'remark');
    const findings = `${run.folder}/findings.json`;
    const { samples, openDraws } = await spotChecks(dossier, delivery);
    const account = lastAccount(dossier);
    const at = (name: string): string => join(root, name);
    const made = await decisionOf({
      findings: at(findings),
      samples: samples.map(at),
      openDraws: openDraws.map(at),
      account: account === null ? null : at(account),
      begin: true,
      ...wish,
    });
    const { record } = made;
    const folder = decisionFolder(place.delivery, place.decisions.length + 1);
    const from = [findings, ...samples, ...openDraws, ...(account === null ? [] : [account])].map((name) => sourceIn(dossier, name));
    const first = await putIn(root, [{ folder, files: [decisionData(record), ...accountFile(made)], from }], around);
    await copyAccount(root, `${folder}/account.json`, around);
    // The page shows the journal as it stands with the decision in it, and so cannot be in it itself yet.
    const after = await openDossier(root);
    const last = after.journal.at(-1);
    const seal = last === undefined ? null : { line: last.number, sha256: digestOf(last.text) };
    const pages = await putIn(
      root,
      [{ folder, files: decisionPages(record, seal), from: [sourceIn(after, `${folder}/decision.json`)] }],
      around,
    );
    return { record, folder, written: [...first, ...pages] };
  });
}

async function refuseBroken(root: string, around: Surroundings): Promise<void> {
  const { broken } = await auditOf(root, { batch: 'none', file: null }, around);
  if (broken.length === 0) return;
  throw new UserMistake(
    [
      'Nothing can be decided while a link of the dossier does not hold:',
      ...broken.slice(0, TOLD).map(({ says }) => `  ${says}`),
      ...(broken.length > TOLD ? [`  and ${String(broken.length - TOLD)} more.`] : []),
      'Bring back the files as they were, or verify again from what lies there now ("reeltally verify").',
    ].join('\n'),
  );
}

/** The draws whose list is still that of the result: the samples of those that were judged, and the others. */
async function spotChecks(
  { root }: OpenDossier,
  { place, result }: Delivery,
): Promise<{ readonly samples: readonly string[]; readonly openDraws: readonly string[] }> {
  const samples: string[] = [];
  const openDraws: string[] = [];
  for (const { folder, judged } of place.draws) {
    const { value: draw } = await readJsonFile(join(root, folder, 'draw.json'), 'draw');
    const lists = lotsOf(result, draw.unit, draw.lot.by).map(({ list }) => listHash(list.map(({ id }) => id)));
    if (!lists.includes(draw.listSha256)) continue;
    if (judged) samples.push(`${folder}/sample.json`);
    else openDraws.push(`${folder}/draw.json`);
  }
  return { samples, openDraws };
}
