import { join } from 'node:path';
import type { DeliveryPlace, RunPlace } from '../../dossier/places.js';
import type { DecisionRecord } from '../../model/decision.js';
import type { DeliveryFile } from '../../model/dossier.js';
import type { Findings } from '../../model/findings.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import type { OpenDossier } from './open.js';

/** A delivery that was verified, as it stands now: its newest result, and what was decided last. */
export interface Delivery {
  readonly place: DeliveryPlace;
  readonly run: RunPlace;
  readonly result: Findings;
  readonly file: DeliveryFile;
  readonly decision: DecisionRecord | null;
}

/** Reads every delivery that was verified, in their order. Throws UserMistake. */
export async function deliveriesOf({ root, layout }: OpenDossier): Promise<readonly Delivery[]> {
  const deliveries: Delivery[] = [];
  for (const place of layout.deliveries) {
    const run = place.runs.at(-1);
    if (run === undefined) continue;
    const { value: result } = await readJsonFile(join(root, run.folder, 'findings.json'), 'findings');
    const { value: file } = await readJsonFile(join(root, run.folder, 'delivery.json'), 'delivery');
    const last = place.decisions.at(-1);
    const decision = last === undefined ? null : (await readJsonFile(join(root, last, 'decision.json'), 'decision')).value;
    deliveries.push({ place, run, result, file, decision });
  }
  return deliveries;
}

/** The delivery that is worked on: the newest. Throws UserMistake where none was verified yet. */
export async function newestDelivery(dossier: OpenDossier): Promise<Delivery> {
  const delivery = (await deliveriesOf(dossier)).at(-1);
  if (delivery !== undefined) return delivery;
  throw new UserMistake('No delivery was verified in this dossier yet. When the drive has come: reeltally verify --batch DIR.');
}

/** Digest of the documents of the batch that a result was made from. */
export function batchDigest({ run }: Findings): string {
  return run.inputs.find(({ role }) => role === 'batch')?.sha256 ?? '';
}
