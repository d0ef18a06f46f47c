import { join, posix } from 'node:path';
import { newest } from '../../../dossier/journal.js';
import type { DeliveryPlace, DrawPlace, RunPlace } from '../../../dossier/places.js';
import { readJsonFile } from '../../../read/json.js';
import { UserMistake } from '../../../read/mistake.js';
import { worksheetOf } from '../../../sampling/worksheet.js';
import type { ResultFile } from '../../outputs/results-folder.js';
import { PICTURES_FILE } from '../../pictures.js';
import { type DrawnLot, drawFolders, drawnLot } from '../../sample-draw.js';
import { judgedSample, sampleFilesFor } from '../../sample-judge.js';
import { hashOf, lotFixed, planFiles } from '../../sample-plan.js';
import type { OpenDossier } from '../open.js';
import { baseFrom } from '../sample-draw.js';
import { resultBehind } from '../sample-plan.js';
import { filesOf } from '../verify.js';
import { nameIn } from '../write.js';
import type { Link } from './again.js';

/** The links from a saved result to its reports, its spot checks and their outcomes. */
export function deliveryLinks(dossier: OpenDossier, place: DeliveryPlace): readonly Link[] {
  return [
    ...place.runs.map((run) => reportsLink(dossier, run)),
    ...[...place.fixed, ...place.draws].map(({ folder }) => planLink(dossier, place, folder)),
    ...[...new Set(place.draws.map(({ throwFolder }) => throwFolder))].map((folder) => drawLink(dossier, place, folder)),
    ...place.draws.filter(({ judged }) => judged).map((draw) => outcomeLink(dossier, place, draw)),
  ];
}

function reportsLink({ root }: OpenDossier, { folder, run }: RunPlace): Link {
  const from = [`${folder}/findings.json`, `${folder}/delivery.json`];
  return {
    folder,
    from,
    what: 'the report',
    make: async () => {
      const { value: result } = await readJsonFile(join(root, folder, 'findings.json'), 'findings');
      const { value: file } = await readJsonFile(join(root, folder, 'delivery.json'), 'delivery');
      return filesOf(result, file, run);
    },
  };
}

/** List and plan of a lot, made again from the result; when they were fixed, and by whom, is what the journal tells. */
function planLink(dossier: OpenDossier, place: DeliveryPlace, folder: string): Link {
  const { root, journal } = dossier;
  const name = `${folder}/plan.json`;
  const run = place.runs.find((one) =>
    newest(journal)
      .get(name)
      ?.from.some((source) => source.name === `${one.folder}/findings.json`),
  );
  return {
    folder,
    from: run === undefined ? [] : [`${run.folder}/findings.json`],
    what: 'the plan of the spot check',
    make: async () => {
      const { folder: behind } = resultBehind(dossier, place, name);
      const { value: plan } = await readJsonFile(join(root, name), 'plan');
      const { value: result, sha256 } = await readJsonFile(join(root, behind, 'findings.json'), 'findings');
      const { lot, plan: numbers, agreed } = lotFixed(plan, result, '');
      const line = newest(journal).get(name);
      const { batch, delivery } = result.run;
      const fixed = line === undefined ? plan.fixed : { at: line.at, by: line.by };
      const beside = lot.extras.map(({ id, reason }) => ({ id, reason }));
      return planFiles(
        {
          ...plan,
          batch,
          delivery,
          findings: { name: 'findings.json', sha256 },
          plan: numbers,
          agreed,
          listSha256: hashOf(lot),
          beside,
          fixed,
        },
        lot,
      );
    },
  };
}

/** The draws of one throw with their worksheets, made again from plans and seeds. */
function drawLink(dossier: OpenDossier, place: DeliveryPlace, throwFolder: string): Link {
  const { root, journal } = dossier;
  const lots = place.draws.filter((draw) => draw.throwFolder === throwFolder);
  const from = [...new Set(lots.flatMap(({ folder }) => (newest(journal).get(`${folder}/draw.json`)?.from ?? []).map(({ name }) => name)))];
  return {
    folder: throwFolder,
    from,
    what: 'the draw',
    make: async (): Promise<readonly ResultFile[]> => {
      const [first] = lots;
      const run = resultBehind(dossier, place, `${first?.folder ?? ''}/draw.json`);
      const { value: result } = await readJsonFile(join(root, run.folder, 'findings.json'), 'findings');
      const { value: file } = await readJsonFile(join(root, run.folder, 'delivery.json'), 'delivery');
      const drawn: DrawnLot[] = [];
      for (const { folder } of lots) {
        const { value: plan } = await readJsonFile(join(root, folder, 'plan.json'), 'plan');
        const { value: draw } = await readJsonFile(join(root, folder, 'draw.json'), 'draw');
        const line = newest(journal).get(`${folder}/draw.json`);
        const thrown = line === undefined ? draw.thrown : { at: line.at, by: line.by };
        const planned = lotFixed(plan, result, folder === throwFolder ? '' : posix.relative(throwFolder, folder));
        drawn.push(drawnLot({ planned, plan }, draw.seed, thrown));
      }
      const made = nameIn(throwFolder, PICTURES_FILE);
      const pictures = newest(journal).has(made) ? (await readJsonFile(join(root, made), 'pictures')).value : null;
      const folders = await drawFolders(drawn, worksheetOf(drawn, result.titles), {
        base: baseFrom(file.link, run.folder, throwFolder),
        pictures,
      });
      return folders.flatMap(({ folder, files }) => files.map(({ name, content }) => ({ name: nameIn(folder, name), content })));
    },
  };
}

function outcomeLink(dossier: OpenDossier, place: DeliveryPlace, { folder, throwFolder }: DrawPlace): Link {
  const { root, journal } = dossier;
  const from = (newest(journal).get(`${folder}/sample.json`)?.from ?? []).map(({ name }) => name);
  return {
    folder,
    from,
    what: 'the outcome of the spot check',
    make: async () => {
      const worksheets = from.filter((name) => name.startsWith(`${throwFolder}/worksheet`));
      if (worksheets.length === 0) throw new UserMistake(`the journal does not say from which worksheet ${folder}/sample.json was judged.`);
      const { value: sample } = await readJsonFile(join(root, folder, 'sample.json'), 'sample');
      const files = { draw: join(root, folder, 'draw.json'), worksheets: worksheets.map((name) => join(root, name)), by: sample.by };
      const run = resultBehind(dossier, place, `${folder}/draw.json`);
      const { value: result } = await readJsonFile(join(root, run.folder, 'findings.json'), 'findings');
      return sampleFilesFor(await judgedSample(files), result);
    },
  };
}
