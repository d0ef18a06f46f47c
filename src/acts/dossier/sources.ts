import { join } from 'node:path';
import { newest } from '../../dossier/journal.js';
import type { DeliveryFile } from '../../model/dossier.js';
import type { VerificationFiles } from '../verify.js';
import type { Delivery } from './deliveries.js';
import { digestOfFile } from './digest.js';
import type { OpenDossier } from './open.js';

/** What is known of the deliveries before one, as names of files of the dossier. */
export interface BeforeDelivery {
  /** The newest result of the delivery before; null for the first. */
  readonly result: string | null;
  /** Rulings and lists that came back about deliveries before, and that no result of theirs was made from. */
  readonly rulings: readonly string[];
  readonly answers: readonly string[];
}

/** The name of the newest result of a delivery. */
export const resultOf = ({ run }: Delivery): string => `${run.folder}/findings.json`;

/** What is known before this delivery. What was put into the dossier about a delivery after it was verified is read with the next one. */
export async function beforeDelivery(dossier: OpenDossier, all: readonly Delivery[], delivery: number): Promise<BeforeDelivery> {
  const before = all.filter(({ place }) => place.delivery < delivery);
  const last = before.at(-1);
  const read = new Set(before.flatMap(({ result }) => result.run.inputs.map(({ sha256 }) => sha256)));
  const late = async (names: readonly string[]): Promise<readonly string[]> => {
    const digests = await Promise.all(names.map((name) => digestOfFile(join(dossier.root, name))));
    return names.filter((_, at) => !read.has(digests[at] ?? ''));
  };
  return {
    result: last === undefined ? null : resultOf(last),
    rulings: await late(
      await filledIn(
        dossier,
        before.flatMap(({ place }) => place.rulings),
      ),
    ),
    answers: await late(before.flatMap(({ place }) => place.answers)),
  };
}

/** What a verification reads, and which files of the dossier people brought for it. Rulings that nobody has written into are none. */
export async function sources(
  dossier: OpenDossier,
  { delivery, received, batch, readText, fixity }: DeliveryFile,
  before: BeforeDelivery,
): Promise<{ readonly files: VerificationFiles; readonly brought: readonly string[] }> {
  const {
    root,
    file: { profile },
    layout,
  } = dossier;
  const place = layout.deliveries.find((one) => one.delivery === delivery);
  const rulings = await filledIn(dossier, place?.rulings ?? []);
  const answers = place?.answers ?? [];
  const sent = layout.sent.findLast((name) => /(?:^|\/)sent-record\.json$/i.test(name));
  const at = (name: string): string => join(root, name);
  return {
    files: {
      collation: [at('record')],
      batch,
      delivery: String(delivery),
      received,
      ...(layout.agreement ? { agreement: at('agreement.json') } : {}),
      ...(layout.profile ? { profile: at('profile.json') } : profile === undefined ? {} : { profile }),
      ...(rulings.length === 0 ? {} : { rulings: rulings.map(at) }),
      ...(answers.length === 0 ? {} : { answers: answers.map(at) }),
      ...(sent === undefined ? {} : { sent: at(sent) }),
      ...(before.result === null
        ? {}
        : { earlier: at(before.result), lateRulings: before.rulings.map(at), lateAnswers: before.answers.map(at) }),
      ...(readText ? { readText } : {}),
      ...(fixity ? { fixity } : {}),
    },
    brought: [
      ...layout.record,
      ...(layout.agreement ? ['agreement.json'] : []),
      ...(layout.profile ? ['profile.json'] : []),
      ...(sent === undefined ? [] : [sent]),
      ...rulings,
      ...answers,
      ...before.rulings,
      ...before.answers,
    ],
  };
}

/** Files that a verification would read now and that are not as the journal knows them. */
export async function unread(dossier: OpenDossier, file: DeliveryFile, all: readonly Delivery[]): Promise<readonly string[]> {
  const known = newest(dossier.journal);
  const changed: string[] = [];
  const { brought } = await sources(dossier, file, await beforeDelivery(dossier, all, file.delivery));
  for (const name of brought) if (known.get(name)?.sha256 !== (await digestOfFile(join(dossier.root, name)))) changed.push(name);
  return changed;
}

/** Those of the files that are not as the program wrote them. */
async function filledIn({ root, journal }: OpenDossier, names: readonly string[]): Promise<readonly string[]> {
  const known = newest(journal);
  const filled: string[] = [];
  for (const name of names) {
    const line = known.get(name);
    if (line?.did !== 'written' || line.sha256 !== (await digestOfFile(join(root, name)))) filled.push(name);
  }
  return filled;
}
