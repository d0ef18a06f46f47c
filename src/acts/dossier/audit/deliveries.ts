import { basename, join } from 'node:path';
import { newest } from '../../../dossier/journal.js';
import type { DeliveryPlace, DrawPlace, RunPlace } from '../../../dossier/places.js';
import { readJsonFile } from '../../../read/json.js';
import { UserMistake } from '../../../read/mistake.js';
import { planAgain } from '../../../sampling/again.js';
import { lotsOf } from '../../../sampling/lots.js';
import type { ResultFile } from '../../outputs/results-folder.js';
import { drawnLots } from '../../sample-draw.js';
import { judgedSample, sampleFiles } from '../../sample-judge.js';
import type { Surroundings } from '../../surroundings.js';
import type { OpenDossier } from '../open.js';
import { baseFrom } from '../sample-draw.js';
import { filesOf } from '../verify.js';
import type { Link } from './again.js';

/** The links from a saved result to its reports, its spot checks and their outcomes. */
export function deliveryLinks(dossier: OpenDossier, place: DeliveryPlace, around: Surroundings): readonly Link[] {
  return [
    ...place.runs.map((run) => reportsLink(dossier, run)),
    ...place.draws.flatMap((draw) => [drawLink(dossier, place, draw, around), ...(draw.judged ? [outcomeLink(dossier, draw)] : [])]),
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

/** The result that a draw was made from, by the digest that the draw names. */
function resultOf({ journal }: OpenDossier, { runs }: DeliveryPlace, draw: DrawPlace): RunPlace | null {
  const known = newest(journal);
  const sources = known.get(`${draw.folder}/draw.json`)?.from ?? [];
  return runs.find(({ folder }) => sources.some(({ name }) => name === `${folder}/findings.json`)) ?? null;
}

function drawLink(dossier: OpenDossier, place: DeliveryPlace, drawn: DrawPlace, around: Surroundings): Link {
  const { root } = dossier;
  const run = resultOf(dossier, place, drawn);
  const { folder } = drawn;
  const findings = run === null ? null : `${run.folder}/findings.json`;
  return {
    folder,
    from: [...(findings === null || run === null ? [] : [findings, `${run.folder}/delivery.json`])],
    what: 'the draw',
    make: async (): Promise<readonly ResultFile[]> => {
      if (run === null || findings === null)
        throw new UserMistake(`the journal does not say which result ${folder}/draw.json was drawn from.`);
      const { value: draw } = await readJsonFile(join(root, folder, 'draw.json'), 'draw');
      const { value: result, sha256 } = await readJsonFile(join(root, findings), 'findings');
      const { value: file } = await readJsonFile(join(root, run.folder, 'delivery.json'), 'delivery');
      const lot = lotsOf(result, draw.unit, draw.lot.by).find(({ name }) => name === draw.lot.name);
      if (lot === undefined) throw new UserMistake(`${findings} has no lot ${draw.lot.name}, from which ${folder}/draw.json was drawn.`);
      const plan = planAgain(draw.plan, lot.list.length, draw.series);
      if ('refused' in plan) throw new UserMistake(`${folder}/draw.json: ${plan.refused.join(' ')}`);
      const wanted = new Set(draw.extras.flatMap(({ id, reasons }) => reasons.map((reason) => `${id}\n${reason}`)));
      const extras = lot.extras.filter(({ id, reason }) => wanted.has(`${id}\n${reason}`));
      const planned = {
        result,
        findings: { name: basename(findings), sha256 },
        unit: draw.unit,
        series: draw.series,
        lots: [{ lot: { ...lot, extras }, name: draw.lot, plan, folder: '' }],
      };
      const baseOf = (): Promise<string | null> => Promise.resolve(baseFrom(file.link, run.folder, folder));
      const [again] = await drawnLots(planned, { seed: draw.seed, baseOf }, { ...around, say: () => undefined });
      return again?.files ?? [];
    },
  };
}

function outcomeLink({ root, journal }: OpenDossier, { folder }: DrawPlace): Link {
  const from = (newest(journal).get(`${folder}/sample.json`)?.from ?? []).map(({ name }) => name);
  return {
    folder,
    from,
    what: 'the outcome of the spot check',
    make: async () => {
      const worksheet = from.find((name) => name.startsWith(`${folder}/worksheet`));
      if (worksheet === undefined) throw new UserMistake(`the journal does not say from which worksheet ${folder}/sample.json was judged.`);
      const { value: sample } = await readJsonFile(join(root, folder, 'sample.json'), 'sample');
      const by = sample.by === '' ? {} : { by: sample.by };
      return sampleFiles(await judgedSample({ draw: join(root, folder, 'draw.json'), worksheet: join(root, worksheet), ...by }));
    },
  };
}
