import { join } from 'node:path';
import { drawnInDossier, plannedInDossier } from '../acts/dossier/sample-draw.js';
import type { PlanWish } from '../acts/inputs/sample-plan.js';
import { refuseExisting, writeResults } from '../acts/outputs/results-folder.js';
import { DRAW_FILES, drawnLots, type LotWish, plannedDraw, planText, wayTo } from '../acts/sample-draw.js';
import type { SavedDraw } from '../model/sample.js';
import { UserMistake } from '../read/mistake.js';
import { EXTRA_GROUPS, type ExtraGroup } from '../sampling/lots.js';
import { sayWritten, typedInDossier } from './in-dossier.js';
import { print, tell, widthOf } from './streams.js';
import { surroundings } from './surroundings.js';

/** Options of `sample draw` as they come from the command line. */
export interface DrawArguments extends PlanWish {
  readonly batch?: string;
  readonly lot?: string;
  readonly reel?: string;
  readonly unit?: string;
  readonly seed?: string;
  readonly extras?: readonly string[];
  readonly out?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

const DRAWN_BESIDE: readonly ExtraGroup[] = ['record', 'neighbours', 'ends', 'splices'];

/** Says what the plan protects against, and with a seed draws the sample of each lot and writes its worksheets. Gives 0 when that was done. Throws UserMistake. */
export async function drawCommand(path: string | undefined, options: DrawArguments): Promise<number> {
  const { seed, out, batch = null, reel, quiet = false, replace = false } = options;
  const unit = options.unit === undefined ? {} : { unit: oneOf('--unit', options.unit, ['page', 'issue']) };
  const wish = {
    by: oneOf('--lot', options.lot ?? 'reel', ['reel', 'batch']),
    ...(reel === undefined ? {} : { reel }),
    ...unit,
    extras: chosenExtras(options.extras),
    plan: options,
  };
  if (path === undefined) return drawHere(wish, options);
  const planned = await plannedDraw({ ...wish, findings: path });
  if (seed !== undefined && out === undefined)
    throw new UserMistake('--seed draws the sample: name a new folder for the draw and its worksheets with --out.');
  // the plan and the hash of the list are said before anything is drawn
  if (!quiet || seed === undefined) await print(planned.lots.map((lot) => planText(lot, planned, widthOf(process.stdout))).join('\n'));
  if (seed === undefined || out === undefined) {
    tell('\nNothing is drawn yet. Throw dice for at least 24 digits and give them with --seed, and a new folder with --out.\n');
    return 0;
  }
  for (const { folder } of planned.lots) await refuseExisting(join(out, folder), replace, DRAW_FILES);
  const baseOf = async (folder: string): Promise<string | null> => (batch === null ? null : wayTo(batch, join(out, folder)));
  // that a seed is too short to be believed is said to those too who want no talk
  for (const { draw, folder, files } of await drawnLots(planned, { seed, baseOf }, surroundings({}))) {
    const place = join(out, folder);
    await writeResults(place, files, replace, DRAW_FILES);
    if (!quiet) tell(written(draw, place));
  }
  return 0;
}

/** The same in a dossier, which knows the result, the batch, and where draws are kept. */
async function drawHere(wish: Omit<LotWish, 'findings'>, { seed, out, batch, replace, quiet }: DrawArguments): Promise<number> {
  const root = await typedInDossier('Say from which saved result to draw: reeltally sample draw findings.json.', { out, batch, replace });
  const planned = await plannedInDossier(root, wish);
  if (quiet !== true || seed === undefined)
    await print(planned.lots.map((lot) => planText(lot, planned, widthOf(process.stdout))).join('\n'));
  if (seed === undefined) {
    tell('\nNothing is drawn yet. Throw dice for at least 24 digits and give them with --seed.\n');
    return 0;
  }
  const { folders, written: names } = await drawnInDossier(root, wish, seed, surroundings({}));
  if (quiet === true) return 0;
  tell('\n');
  for (const folder of folders)
    sayWritten(
      root,
      folder,
      names.filter((name) => name.startsWith(`${folder}/`)),
    );
  tell('Look at the pages, answer in one of the worksheets of each folder, then: reeltally sample judge --by NAME.\n');
  return 0;
}

function written({ unit, drawn, extras, lot }: SavedDraw, folder: string): string {
  const beside = extras.length === 0 ? '' : ` and ${String(extras.length)} beside them for a reason`;
  return `\n${lot.by === 'reel' ? 'Reel' : 'Batch'} ${lot.name}: drew ${String(drawn.length)} ${unit}${drawn.length === 1 ? '' : 's'}${beside}. Written to ${folder}: ${[...DRAW_FILES].join(', ')}.\n`;
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

function oneOf<Choice extends string>(option: string, text: string, choices: readonly Choice[]): Choice {
  const choice = choices.find((one) => one === text);
  if (choice === undefined) throw new UserMistake(`${option}: ${text} is none of ${choices.join(', ')}.`);
  return choice;
}
