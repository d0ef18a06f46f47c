import { join } from 'node:path';
import { newest } from '../../../dossier/journal.js';
import { type DeliveryPlace, layoutOf } from '../../../dossier/places.js';
import type { DeliveryFile } from '../../../model/dossier.js';
import type { SourceFile } from '../../../model/sample.js';
import { readJsonFile } from '../../../read/json.js';
import { UserMistake } from '../../../read/mistake.js';
import { renderJson } from '../../../report/json.js';
import { programVersion } from '../../program-version.js';
import type { Surroundings } from '../../surroundings.js';
import { type VerificationFiles, verification } from '../../verify.js';
import { batchDigest, type Delivery } from '../deliveries.js';
import type { OpenDossier } from '../open.js';
import { sources } from '../sources.js';
import { broken, type Looked, remark, together } from './outcome.js';

/**
 * Verifies a delivery again where its batch is at hand, and compares the newest result. `given` is the folder that the person named, else the one where the
 * batch lay is tried; a batch that is not there, or another one, is said and breaks nothing.
 */
export async function findingsLooked(
  dossier: OpenDossier,
  place: DeliveryPlace,
  before: readonly Delivery[],
  given: readonly string[] | null,
  around: Surroundings,
): Promise<Looked> {
  const delivery = before.find((one) => one.place.delivery === place.delivery);
  if (delivery === undefined) return together([]);
  const name = `${delivery.run.folder}/findings.json`;
  const line = newest(dossier.journal).get(name);
  const replaced = (line?.from ?? []).filter((source) => {
    const now = newest(dossier.journal).get(source.name);
    return now !== undefined && now.sha256 !== source.sha256;
  });
  if (replaced.length > 0)
    return remark([name], `${name} was not made again: ${replaced.map((one) => one.name).join(', ')} was replaced since.`);
  const batch = given ?? delivery.file.batch;
  const files = await filesThen(dossier, { ...delivery.file, batch }, line?.from ?? []);
  const now = delivery.result.run.at;
  // What the comparison has to remark was said when it was made.
  const say: Surroundings['say'] = (text, kind) => {
    if (kind === 'progress') around.say(text, kind);
  };
  try {
    const again = await verification(files, { ...around, say, now });
    if (batchDigest(again) !== batchDigest(delivery.result))
      return given === null
        ? broken([name], `${name} was made from other documents than those that lie in ${batch.join(', ')} now.`)
        : remark([name], `${name} was made from other documents than those in ${batch.join(', ')}, and was not made again.`);
    const { value: saved } = await readJsonFile(join(dossier.root, name), 'findings');
    if (renderJson(again) === renderJson(saved)) return { broken: [], remarks: [], held: [name] };
    const version = programVersion();
    return saved.tool.version === version
      ? broken([name], `${name} is not what the comparison gives when it is made again.`)
      : remark(
          [name],
          `${name} was made by version ${saved.tool.version} of the program; version ${version} gives another result: ${again.verdict.decision} instead of ${saved.verdict.decision}, ${String(again.findings.length)} findings instead of ${String(saved.findings.length)}.`,
        );
  } catch (error) {
    if (!(error instanceof UserMistake)) throw error;
    return remark([name], `${name} was not made again, for the batch is not at hand: ${error.message}`);
  }
}

/** What the result was made from, by the journal: what came into the dossier later was not read, and is nothing against it. */
async function filesThen(dossier: OpenDossier, file: DeliveryFile, from: readonly SourceFile[]): Promise<VerificationFiles> {
  const names = from.map(({ name }) => name);
  const then = layoutOf(names);
  const others = then.deliveries.filter(({ delivery }) => delivery < file.delivery);
  const before = {
    result: names.find((name) => /^delivery-\d+\/(?:run-\d+\/)?findings\.json$/.test(name)) ?? null,
    rulings: others.flatMap(({ rulings }) => rulings),
    answers: others.flatMap(({ answers }) => answers),
  };
  return (await sources({ ...dossier, layout: then }, file, before)).files;
}
