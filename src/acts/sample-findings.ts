import { codeEntry } from '../catalogue/codes.js';
import { withIds } from '../judge/ids.js';
import type { Finding, Findings } from '../model/findings.js';
import type { SampleQuestion, SavedSample, WrongUnit } from '../model/sample.js';
import { UserMistake } from '../read/mistake.js';
import { renderXlsx } from '../report/xlsx/index.js';
import { listHash } from '../sampling/draw.js';
import { type LotPage, lotsOf } from '../sampling/lots.js';
import { CODES } from '../sampling/questions.js';

/** What is wrong, as the second half of a sentence that begins with the images, and what is asked for. */
interface Words {
  readonly says: Readonly<Partial<Record<SampleQuestion, string>>>;
  readonly todo: (where: string) => string;
  readonly rescan: 'yes' | 'no';
}

const WORDS: ReadonlyMap<string, Words> = new Map<string, Words>([
  [
    'image-wrong-page',
    {
      says: {
        'right-date': 'is not of the day that the documents say',
        'right-issue': 'is not of the issue that the documents say',
        'right-page': 'is not the page that the documents say',
      },
      todo: (where) =>
        `Look at ${where} on the film and deliver what it shows there, with its own data; then deliver the page that is missing.`,
      rescan: 'yes',
    },
  ],
  [
    'image-out-of-order',
    {
      says: { 'right-order': 'does not stand at its place in the issue' },
      todo: (where) => `Put ${where} at its place in the issue.`,
      rescan: 'no',
    },
  ],
  [
    'image-incomplete',
    { says: { complete: 'does not show the whole page' }, todo: (where) => `Scan ${where} again, whole.`, rescan: 'yes' },
  ],
  [
    'image-illegible',
    { says: { legible: 'cannot be read' }, todo: (where) => `Scan ${where} again, so that it can be read.`, rescan: 'yes' },
  ],
]);

/** The result with what was found wrong in spot checks of it: a finding for each unit and code, of the group images. The verdict on the documents stays, and says that there is more. Throws UserMistake for a spot check of another list. */
export function withImageFindings(result: Findings, samples: readonly { readonly sample: SavedSample; readonly name: string }[]): Findings {
  const found = samples.flatMap(({ sample, name }) => imageDrafts(result, sample, name));
  const findings = withIds(found.map(({ draft }) => draft));
  const byFrame = new Map<unknown, string[]>();
  findings.forEach(({ id }, at) => {
    for (const { frame } of found[at]?.pages ?? []) byFrame.set(frame, [...(byFrame.get(frame) ?? []), id]);
  });
  const codes = new Set(findings.map(({ code }) => code));
  const entries = [...codes].flatMap((code) => codeEntry(code) ?? []);
  const units = samples.reduce((sum, { sample }) => sum + sample.wrongOnes.length, 0);
  const more = `This is said of the documents. A spot check of the images found ${String(units)} wrong: ${units === 1 ? 'it stands' : 'they stand'} in the list.`;
  return {
    ...result,
    verdict: units === 0 ? result.verdict : { ...result.verdict, reasons: [...result.verdict.reasons, more] },
    findings: [...result.findings, ...findings],
    reels: result.reels.map((reel) => ({
      ...reel,
      frames: reel.frames.map((frame) => {
        const ids = byFrame.get(frame);
        return ids === undefined ? frame : { ...frame, findings: [...frame.findings, ...ids] };
      }),
    })),
    catalogue: [...result.catalogue, ...entries.filter(({ code }) => !result.catalogue.some((one) => one.code === code))],
  };
}

/** The list for the vendor of what one spot check found wrong, as a workbook like that of the other findings; null where it found nothing. */
export async function imageList(result: Findings, sample: SavedSample): Promise<Uint8Array | null> {
  if (sample.wrongOnes.length === 0) return null;
  const list = withImageFindings({ ...result, findings: [], record: [] }, [{ sample, name: 'sample.json' }]);
  // what is advised of the documents is not what becomes of a lot whose images were rejected
  return renderXlsx(
    sample.outcome === 'rejected' ? { ...list, verdict: { ...list.verdict, decision: 'return-for-rework', reasons: [REJECTED] } } : list,
  );
}

const REJECTED =
  'The spot check of the images was rejected. What is to be corrected in the documents stands in the list of discrepancies, if anything is.';

interface Drafted {
  readonly draft: Omit<Finding, 'id'>;
  readonly pages: readonly LotPage[];
}

function imageDrafts(result: Findings, sample: SavedSample, name: string): readonly Drafted[] {
  const { run } = result;
  if (sample.batch !== run.batch || sample.delivery !== run.delivery)
    throw new UserMistake(
      `${name} is a spot check of delivery ${String(sample.delivery)} of ${sample.batch}, and the result is of delivery ${String(run.delivery)} of ${run.batch}.`,
    );
  const { unit } = sample.draw;
  const lot = lotsOf(result, unit, sample.lot.by).find((one) => one.name === sample.lot.name);
  if (lot === undefined || listHash(lot.list.map(({ id }) => id)) !== sample.draw.listSha256)
    throw new UserMistake(`${name}: this spot check was drawn from another list of pages than these findings give.`);
  const pages = new Map(lot.list.map(({ id }, at) => [id, lot.pages[at] ?? []]));
  return sample.wrongOnes.flatMap((wrong) =>
    wrong.codes.map((code) => ({
      draft: draftOf(result, sample, wrong, code, pages.get(wrong.id) ?? []),
      pages: pages.get(wrong.id) ?? [],
    })),
  );
}

function draftOf(
  { agreement }: Findings,
  sample: SavedSample,
  wrong: WrongUnit,
  code: string,
  pages: readonly LotPage[],
): Omit<Finding, 'id'> {
  const [first] = pages;
  const frames = pages.flatMap(({ frame }) => frame.frame ?? []);
  const [from, to] = [frames[0], frames.at(-1)];
  const ofPage = sample.draw.unit === 'page';
  const where = placeInWords(wrong, pages);
  const words = WORDS.get(code);
  const failed = wrong.questions.filter((question) => CODES[question] === code);
  const says = failed.flatMap((question) => words?.says[question] ?? []).join(', and ');
  const readers = sample.readers.map(({ by }) => by).filter((by) => by !== '');
  return {
    code,
    severity: agreement.severities[code] ?? codeEntry(code)?.severity ?? 'major',
    weighs: pages.length,
    scope: ofPage ? 'page' : 'issue',
    cause: 'vendor-image',
    reel: first?.reel ?? null,
    at: first?.frame.frame ?? null,
    frames: from === undefined || to === undefined ? null : { from, to },
    count: pages.length,
    title: first?.frame.title ?? null,
    date: first?.frame.date ?? null,
    edition: first?.frame.edition ?? null,
    page: ofPage ? (first?.frame.page ?? null) : null,
    field: null,
    collation: null,
    return: null,
    says: `${where.charAt(0).toUpperCase()}${where.slice(1)}: the image ${says}.`,
    instruction: words?.todo(where) ?? null,
    evidence: [
      `Seen in a spot check of ${sample.lot.by === 'reel' ? `reel ${sample.lot.name}` : 'the batch'}${readers.length === 0 ? '' : ` by ${readers.join(', ')}`}.`,
      ...(wrong.note === '' ? [] : [`Note of the reader: ${wrong.note}`]),
    ],
    alternatives: [],
    repair: [],
    corrections: [],
    places: pages.flatMap(({ frame }) => (frame.files[0] === undefined ? [] : [{ document: frame.files[0].path }])),
    rescan: words?.rescan ?? 'yes',
    billable: [],
    ruling: null,
    answer: null,
  };
}

function placeInWords({ id }: WrongUnit, pages: readonly LotPage[]): string {
  const [first] = pages;
  if (first === undefined) return id;
  const numbers = pages.flatMap(({ frame }) => frame.frame ?? []);
  const run =
    numbers.length === 0
      ? id
      : numbers.length === 1
        ? `frame ${numbers[0] ?? ''}`
        : `frames ${numbers[0] ?? ''} to ${numbers.at(-1) ?? ''}`;
  return `reel ${first.reel}, ${run}`;
}
