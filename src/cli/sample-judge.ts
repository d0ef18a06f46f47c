import { judgedInDossier } from '../acts/dossier/sample-judge.js';
import { refuseExisting } from '../acts/outputs/results-folder.js';
import { IMAGE_LIST, judgedSample, SAMPLE_FILES, sampleFiles } from '../acts/sample-judge.js';
import { UserMistake } from '../read/mistake.js';
import { jsonText } from '../report/json.js';
import { sampleText } from '../report/sample-text.js';
import { placeInWords, writeAndSay } from './folder.js';
import { asTyped, typedInDossier } from './in-dossier.js';
import { print, tell, widthOf } from './streams.js';
import { surroundings } from './surroundings.js';

/** Options of `sample judge` as they come from the command line. */
export interface JudgeArguments {
  readonly worksheet?: readonly string[];
  readonly by?: string;
  readonly asTheyStand?: true;
  readonly out?: string;
  readonly format?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

/** Judges the answered worksheet of a draw: 0 where the lot is accepted, 1 where it is not. Throws UserMistake. */
export async function judgeCommand(path: string | undefined, options: JudgeArguments): Promise<number> {
  if (path === undefined) return judgeHere(options);
  const { worksheet, by, format = 'text', out, replace = false, quiet = false } = options;
  if (worksheet === undefined)
    throw new UserMistake('Say which answers are to be judged: --worksheet with the file that the page saved, or the sheet filled in.');
  if (format !== 'text' && format !== 'json') throw new UserMistake(`--format: there is no format ${format}. There are text, json.`);
  if (out !== undefined) await refuseExisting(out, replace, SAMPLE_FILES);
  const sample = await judgedSample({ draw: path, worksheets: worksheet, ...(by === undefined ? {} : { by }) });
  if (out === undefined) await print(format === 'json' ? jsonText(sample) : sampleText(sample, widthOf(process.stdout)));
  else {
    await writeAndSay(sampleFiles(sample), { out, replace, quiet, ours: SAMPLE_FILES });
    if (!quiet) tell(`${sample.says[0] ?? ''}\n`);
  }
  return sample.outcome === 'rejected' ? 1 : 0;
}

/** The same in a dossier, for every draw of the newest delivery that was answered: 1 where one of the lots is not accepted. */
async function judgeHere({ worksheet, by, asTheyStand, format, out, replace, quiet }: JudgeArguments): Promise<number> {
  const root = await typedInDossier('Say which draw was answered: reeltally sample judge draw.json --worksheet FILE.', {
    worksheet,
    format,
    out,
    replace,
  });
  const judged = await judgedInDossier(
    root,
    { ...(by === undefined ? {} : { by }), ...(asTheyStand === undefined ? {} : { asTheyStand }) },
    surroundings({ quiet: quiet === true }),
  );
  for (const { folder, sample, files } of judged) {
    await print(sampleText(sample, widthOf(process.stdout)));
    if (quiet === true) continue;
    tell(`Written to ${placeInWords(asTyped(root, folder))}: ${files.join(', ')}.\n`);
    if (files.includes(IMAGE_LIST)) tell(`${IMAGE_LIST} goes to the vendor beside the list of the other findings.\n`);
  }
  return judged.some(({ sample }) => sample.outcome === 'rejected') ? 1 : 0;
}
