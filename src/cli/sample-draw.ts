import { join } from 'node:path';
import { drawnInDossier } from '../acts/dossier/sample-draw.js';
import { type DossierLotWish, fixedInDossier, plannedInDossier } from '../acts/dossier/sample-plan.js';
import { type PlanWish, wishedOf } from '../acts/inputs/sample-plan.js';
import { refuseExisting, writeResults } from '../acts/outputs/results-folder.js';
import { pagesOf, picturesOf, writePictures } from '../acts/pictures.js';
import { DRAW_FILES, drawFolders, drawnLots, wayTo } from '../acts/sample-draw.js';
import { fixedPlans, PLAN_FILES, planFiles, plannedDraw, planTexts, settledIn, type TimeTexts } from '../acts/sample-plan.js';
import type { SavedDraw } from '../model/sample.js';
import { UserMistake } from '../read/mistake.js';
import { EXTRA_GROUPS, type ExtraGroup } from '../sampling/lots.js';
import { worksheetOf } from '../sampling/worksheet.js';
import { oneOf, picturesWished } from './chosen-forms.js';
import { placeInWords } from './folder.js';
import { sayWritten, typedInDossier } from './in-dossier.js';
import { print, tell, widthOf } from './streams.js';
import type { TerminalSurroundings } from './surroundings.js';
import { surroundings } from './surroundings.js';

/** Options of `sample draw` as they come from the command line. */
export interface DrawArguments extends PlanWish, TimeTexts {
  readonly batch?: string;
  readonly pictures?: string;
  readonly lot?: string;
  readonly reel?: string;
  readonly unit?: string;
  readonly fix?: true;
  readonly seed?: string;
  readonly reason?: string;
  readonly extras?: readonly string[];
  readonly at?: string;
  readonly out?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

const DRAWN_BESIDE: readonly ExtraGroup[] = ['record', 'neighbours', 'ends', 'splices'];

/** Says what the plan protects against; with `fix` writes list and plan down, and with a seed draws the sample of each lot and writes its worksheets. Gives 0 when that was done. Throws UserMistake. */
export async function drawCommand(path: string | undefined, options: DrawArguments): Promise<number> {
  if (options.fix === true && options.seed !== undefined)
    throw new UserMistake('--fix and --seed are two steps: the dice are thrown after list and plan are fixed.');
  // that a seed is too short to be believed is said to those too who want no talk
  const around = surroundings(options.at === undefined ? {} : { at: options.at });
  if (path === undefined) return drawHere(options, around);
  if (options.seed !== undefined) return drawFrom(path, options.seed, options, around);
  const planned = await plannedDraw({ ...lotWish(options), findings: path });
  if (options.quiet !== true || options.fix !== true) await print(planTexts(planned, options, widthOf(process.stdout)).join('\n'));
  if (options.fix !== true) {
    tell('\nNothing is drawn yet. Fix list and plan with --fix and a new folder with --out; then throw the dice.\n');
    return 0;
  }
  const { out, replace = false } = options;
  if (out === undefined) throw new UserMistake('--fix writes list and plan down: name a new folder for them with --out.');
  for (const { folder } of planned.lots) await refuseExisting(join(out, folder), replace, PLAN_FILES);
  const plans = fixedPlans(planned, { reason: options.reason ?? '', before: () => 0, fixed: { at: around.now, by: around.who } });
  for (const [at, { lot, folder }] of planned.lots.entries()) {
    const plan = plans[at];
    if (plan !== undefined) await writeResults(join(out, folder), planFiles(plan, lot), replace, PLAN_FILES);
  }
  if (options.quiet !== true)
    tell(
      `\nList and plan are fixed in ${out}. Now throw dice for at least 24 digits. Then: reeltally sample draw ${path} --out ${out} --seed DIGITS\n`,
    );
  return 0;
}

/** Draws from a saved result into a folder: by what was fixed there, else by the options. */
async function drawFrom(path: string, seed: string, options: DrawArguments, around: TerminalSurroundings): Promise<number> {
  const { out, batch, quiet = false, replace = false } = options;
  if (out === undefined) throw new UserMistake('--seed draws the sample: name a new folder for the draw and its worksheets with --out.');
  const { result, lots, fixed } = await settledIn(out, path, wishedOf(options), lotWish(options), options.reason ?? '');
  const base = batch === undefined ? null : await wayTo(batch, out);
  const ours = fixed ? DRAW_FILES : new Set([...DRAW_FILES, 'list.txt']);
  for (const { planned } of lots) await refuseExisting(join(out, planned.folder), replace, ours);
  if (!fixed) around.say('nothing shows that list and plan were fixed before this seed was thrown; --fix does that.', 'remark');
  const drawn = drawnLots(lots, seed, { at: around.now, by: around.who }, around);
  const worksheet = worksheetOf(drawn, result.titles);
  const small = batch === undefined || !picturesWished(options) ? null : await picturesOf(pagesOf(worksheet), batch, around);
  if (small !== null) await writePictures(out, small.files, replace);
  const folders = await drawFolders(drawn, worksheet, { base, pictures: small?.made ?? null });
  for (const { folder, files } of folders) {
    const lot = fixed ? undefined : drawn.find((one) => one.folder === folder)?.lot;
    const list = lot === undefined ? [] : [{ name: 'list.txt', content: lot.list.map(({ id }) => `${id}\n`).join('') }];
    await writeResults(join(out, folder), [...files, ...list], replace, ours);
  }
  if (!quiet) for (const { draw, folder } of drawn) tell(written(draw, join(out, folder)));
  return 0;
}

/** The same in a dossier, which knows the result, the batch, and where draws are kept. */
async function drawHere(options: DrawArguments, around: TerminalSurroundings): Promise<number> {
  const { seed, out, batch, replace, quiet = false } = options;
  const root = await typedInDossier('Say from which saved result to draw: reeltally sample draw findings.json.', { out, batch, replace });
  if (seed !== undefined) {
    const [strange] = wishedOf(options);
    if (strange !== undefined)
      throw new UserMistake(
        `${strange}: list and plan were fixed before the seed was thrown, and only the seed is given now. Leave it out, or fix them anew with --fix.`,
      );
    const { folder, written: names } = await drawnInDossier(root, seed, around, picturesWished(options));
    if (quiet) return 0;
    sayWritten(root, folder, names);
    tell(
      'Look at the pages and answer in one of the worksheets; several people may, each in a copy of their own. Then: reeltally sample judge --by NAME\n',
    );
    return 0;
  }
  const wish: DossierLotWish = lotWish(options);
  if (!quiet || options.fix !== true)
    await print(planTexts(await plannedInDossier(root, wish), options, widthOf(process.stdout)).join('\n'));
  if (options.fix !== true) {
    tell('\nNothing is fixed or drawn yet. Fix list and plan first: reeltally sample draw --fix\n');
    return 0;
  }
  const { folder, written: names } = await fixedInDossier(root, wish, options.reason ?? '', around);
  if (quiet) return 0;
  tell('\n');
  if (names.length > 0) sayWritten(root, folder, names);
  else tell(`List and plan were fixed before, just so: they lie in ${folder}.\n`);
  tell('Now throw dice for at least 24 digits. Then: reeltally sample draw --seed DIGITS\n');
  return 0;
}

function lotWish(options: DrawArguments): DossierLotWish {
  const { reel } = options;
  return {
    by: oneOf('--lot', options.lot ?? 'reel', ['reel', 'batch']),
    ...(reel === undefined ? {} : { reel }),
    ...(options.unit === undefined ? {} : { unit: oneOf('--unit', options.unit, ['page', 'issue']) }),
    extras: chosenExtras(options.extras),
    plan: options,
  };
}

function written({ unit, drawn, extras, lot }: SavedDraw, folder: string): string {
  const beside = extras.length === 0 ? '' : ` and ${String(extras.length)} beside them for a reason`;
  return `${lot.by === 'reel' ? 'Reel' : 'Batch'} ${lot.name}: drew ${String(drawn.length)} ${unit}${drawn.length === 1 ? '' : 's'}${beside}. Written to ${placeInWords(folder)}.\n`;
}

function chosenExtras(wishes: readonly string[] | undefined): readonly ExtraGroup[] {
  if (wishes === undefined) return DRAWN_BESIDE;
  const names = wishes.flatMap((wish) => wish.split(',')).filter((name) => name !== '');
  if (names.length === 1 && names[0] === 'none') return [];
  const unknown = names.filter((name) => !EXTRA_GROUPS.some((group) => group === name));
  if (unknown.length > 0 || names.length === 0)
    throw new UserMistake(
      `--extras: ${unknown.length === 0 ? 'no group is named' : `there is no group ${unknown.join(', ')}`}. There are ${EXTRA_GROUPS.join(', ')}, or none.`,
    );
  return EXTRA_GROUPS.filter((group) => names.includes(group));
}
