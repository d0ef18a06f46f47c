import { join, resolve } from 'node:path';
import { AGREEMENT_FILE, runFolder } from '../../dossier/places.js';
import type { DeliveryFile } from '../../model/dossier.js';
import type { Findings } from '../../model/findings.js';
import type { SourceFile } from '../../model/sample.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { FORMATS, RULINGS_FILE, renderRulings } from '../../report/index.js';
import { jsonText, renderJson } from '../../report/json.js';
import { dayGiven } from '../inputs/day-given.js';
import { linksTo, resultFiles } from '../outputs/result-files.js';
import type { ResultFile } from '../outputs/results-folder.js';
import type { Surroundings } from '../surroundings.js';
import { verification } from '../verify.js';
import { isClosed } from './decided.js';
import { batchDigest, type Delivery, deliveriesOf } from './deliveries.js';
import { alone } from './lock.js';
import { type OpenDossier, openDossier } from './open.js';
import { beforeDelivery, resultOf, sources } from './sources.js';
import { putIn, sourceIn, takeIn } from './write.js';

/** What a person says about the delivery; all else is found in the dossier. */
export interface DossierVerifyWish {
  /** Left out: where the newest delivery lay when it was verified. */
  readonly batch?: readonly string[];
  readonly delivery?: string;
  readonly received?: string;
  readonly readText?: true;
  readonly fixity?: true;
}

/** What came of it; `written` is empty where nothing has changed since the result that is there. */
export interface DossierVerified {
  readonly result: Findings;
  /** The folder of the result, from that of the dossier. */
  readonly folder: string;
  readonly written: readonly string[];
}

/** Verifies a delivery from what lies in the dossier and keeps the result there, beside earlier ones and never over them. Throws UserMistake. */
export async function verifyInDossier(root: string, wish: DossierVerifyWish, around: Surroundings): Promise<DossierVerified> {
  return alone(root, around, async () => {
    const dossier = await openDossier(root);
    const { layout } = dossier;
    if (layout.record.length === 0)
      throw new UserMistake(`${join(root, 'record')} is empty. Put the collation record there, with its reading file where it has one.`);
    const before = await deliveriesOf(dossier);
    const chosen = chosenDelivery(before, wish);
    const { delivery, again } = chosen;
    const earlier = before.findLast(({ place }) => place.delivery < delivery);
    const folders = await foldersOf(dossier, wish, earlier, around);
    const file = deliveryFile(root, { ...wish, ...(folders === undefined ? {} : { batch: folders }) }, chosen, earlier, around);
    const { files, brought } = await sources(dossier, file, await beforeDelivery(dossier, before, delivery));
    const result = await verification(files, around);
    refuseMixUp(before, chosen, wish, result);
    const run = again === null ? 1 : again.run.run + 1;
    if (again !== null && sameBut(again.result, result)) return { result, folder: again.run.folder, written: [] };
    await takeIn(dossier, brought, around);
    const folder = runFolder(delivery, run);
    const known = await openDossier(root);
    const from = [...brought, ...(earlier === undefined ? [] : [resultOf(earlier)])].map((name) => sourceIn(known, name));
    const batch: SourceFile = { name: result.run.batch, sha256: batchDigest(result) };
    const written = await putIn(root, [{ folder, files: await filesOf(result, file, run), from: [...from, batch] }], around);
    return { result, folder, written };
  });
}

/** The files of a result and of what is known of its delivery, as they lie in their folder. The rulings of a later verification list what has no ruling yet; the sheets before it stay. */
export async function filesOf(result: Findings, file: DeliveryFile, run: number): Promise<readonly ResultFile[]> {
  const links = file.link === undefined ? {} : { batch: file.link };
  const formats = FORMATS.map(({ name }) => name);
  const files = await resultFiles(result, formats, links, []);
  const unruled = result.findings.filter(({ ruling }) => ruling === null);
  const sheet =
    run === 1 || unruled.length === 0 ? [] : [{ name: RULINGS_FILE, content: await renderRulings({ ...result, findings: unruled }) }];
  return [{ name: 'delivery.json', content: jsonText(file) }, ...files.filter(({ name }) => run === 1 || name !== RULINGS_FILE), ...sheet];
}

/** Which delivery is meant: the number that was given, else the newest until it is decided, else the next. */
interface ChosenDelivery {
  readonly delivery: number;
  /** The same delivery as it was verified last, or null where it is new. */
  readonly again: Delivery | null;
}

function chosenDelivery(before: readonly Delivery[], { delivery: given, batch }: DossierVerifyWish): ChosenDelivery {
  const last = before.at(-1);
  if (given !== undefined) {
    if (!/^[1-9]\d{0,3}$/.test(given))
      throw new UserMistake(`--delivery: ${given} is not a count of deliveries. Write 1 for the first, 2 for the next.`);
    const delivery = Number(given);
    if (delivery > (last?.place.delivery ?? 0) + 1)
      throw new UserMistake(`--delivery: the next delivery of this order is ${String((last?.place.delivery ?? 0) + 1)}, not ${given}.`);
    return { delivery, again: before.find(({ place }) => place.delivery === delivery) ?? null };
  }
  if (last === undefined) return { delivery: 1, again: null };
  // Without a new drive it can only be the one that is there.
  if (batch === undefined || !isClosed(last.decision)) return { delivery: last.place.delivery, again: last };
  return { delivery: last.place.delivery + 1, again: null };
}

/** The folders that make the batch: where the vendor sends only what was to be corrected, the drive that came lies over those of the delivery before. */
async function foldersOf(
  { root, layout }: OpenDossier,
  { batch }: DossierVerifyWish,
  earlier: Delivery | undefined,
  { say }: Surroundings,
): Promise<readonly string[] | undefined> {
  const given = batch?.map((folder) => resolve(folder));
  if (given === undefined || earlier === undefined || !layout.agreement) return given;
  const { value: agreement } = await readJsonFile(join(root, AGREEMENT_FILE), 'agreement');
  const under = earlier.file.batch;
  if (agreement.policies?.redelivery !== 'named-items' || given.some((folder) => under.includes(folder))) return given;
  say(
    `only named items are sent again by the agreement: what is in ${given.join(', ')} replaces documents and files of the same name in ${under.join(', ')}, where delivery ${String(earlier.place.delivery)} lay. If that lies elsewhere now, name both with --batch, the earlier one first.`,
    'remark',
  );
  return [...under, ...given];
}

function deliveryFile(
  root: string,
  wish: DossierVerifyWish,
  { delivery, again }: ChosenDelivery,
  earlier: Delivery | undefined,
  { say, now }: Surroundings,
): DeliveryFile {
  const batch = wish.batch?.map((folder) => resolve(folder)) ?? again?.file.batch;
  if (batch === undefined) throw new UserMistake('Say where the drive is that came: reeltally verify --batch DIR.');
  const received = wish.received === undefined ? (again?.file.received ?? now.slice(0, 10)) : dayGiven('--received', wish.received);
  if (wish.received === undefined && again === null)
    say(`delivery ${String(delivery)} is taken to have come in on ${received}. If it came earlier, say so with --received DAY.`, 'remark');
  const before = earlier?.file.received ?? '';
  if (received < before)
    throw new UserMistake(
      `Delivery ${String(delivery)} cannot have come in on ${received}${wish.received === undefined ? ', which is the day by the clock of this machine' : ''}: delivery ${String(earlier?.place.delivery)} came in on ${before}. Say when it came with --received DAY.`,
    );
  const [only, ...more] = batch;
  const run = again === null ? 1 : again.run.run + 1;
  const { batch: link } = more.length > 0 ? {} : linksTo(only, join(root, runFolder(delivery, run)));
  return {
    format: 'reeltally/delivery/1',
    delivery,
    received,
    batch,
    ...(link === undefined ? {} : { link }),
    readText: wish.readText ?? again?.file.readText ?? false,
    fixity: wish.fixity ?? again?.file.fixity ?? false,
  };
}

/** A drive that is not the delivery that it is taken for: told by its documents before anything is written. */
function refuseMixUp(before: readonly Delivery[], { delivery, again }: ChosenDelivery, wish: DossierVerifyWish, result: Findings): void {
  if (wish.delivery !== undefined) return;
  const same = before.find((one) => batchDigest(one.result) === batchDigest(result));
  const place = wish.batch?.join(', ') ?? '';
  if (again === null && same !== undefined)
    throw new UserMistake(
      `${place} holds the same documents as delivery ${String(same.place.delivery)}, which is decided. Is it the right drive? If the vendor did send the same again, say --delivery ${String(delivery)}.`,
    );
  if (again !== null && same?.place.delivery !== delivery)
    throw new UserMistake(
      `${place} holds other documents than delivery ${String(delivery)}, which is not decided yet. Decide it first ("reeltally decide"), or say which delivery this is: --delivery ${String(delivery)} or --delivery ${String(delivery + 1)}.`,
    );
}

/** Whether two results say the same, apart from when they were made. */
function sameBut(old: Findings, now: Findings): boolean {
  return renderJson(old) === renderJson({ ...now, run: { ...now.run, at: old.run.at } });
}
