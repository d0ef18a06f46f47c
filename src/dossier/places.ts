/** One verification of a delivery: its folder holds the saved result and the reports. The first lies in the folder of the delivery itself. */
export interface RunPlace {
  readonly run: number;
  readonly folder: string;
}

/** A lot whose list and plan are fixed, and from which nothing is drawn yet. */
export interface FixedPlace {
  readonly folder: string;
  readonly throwFolder: string;
}

/** A spot check: the folder of one draw from one lot. */
export interface DrawPlace {
  readonly folder: string;
  /** The folder of the throw, which holds the worksheets of all its lots; its own where there is one lot. */
  readonly throwFolder: string;
  /** Files in the folder of the throw whose names begin with `worksheet`. */
  readonly worksheets: readonly string[];
  readonly judged: boolean;
}

/** What lies in the folder of one delivery. */
export interface DeliveryPlace {
  readonly delivery: number;
  readonly folder: string;
  /** In their order; the last one counts. */
  readonly runs: readonly RunPlace[];
  readonly rulings: readonly string[];
  readonly answers: readonly string[];
  readonly draws: readonly DrawPlace[];
  readonly fixed: readonly FixedPlace[];
  /** Folders of the decisions about it, in their order; the last one counts. */
  readonly decisions: readonly string[];
}

/** What lies where in a dossier; every name is a path from its folder, with `/`. */
export interface Layout {
  readonly record: readonly string[];
  readonly agreement: boolean;
  readonly profile: boolean;
  readonly account: boolean;
  /** What went with the film, the newest last. */
  readonly sent: readonly string[];
  readonly deliveries: readonly DeliveryPlace[];
  /** Folders of invoices, in their order. */
  readonly invoices: readonly string[];
}

/** The files that stand in the folder of a dossier itself. */
export const DOSSIER_FILE = 'dossier.json';
export const AGREEMENT_FILE = 'agreement.json';
export const PROFILE_FILE = 'profile.json';
export const ACCOUNT_FILE = 'account.json';
export const JOURNAL_FILE = 'journal.jsonl';
export const LOCK_FILE = 'lock.json';
/** The folders that a new dossier has. */
export const FOLDERS: readonly string[] = ['record', 'sent', 'invoices', 'decisions'];

/** The folder of a delivery, of one verification of it, of one draw, of one decision about it. */
export const deliveryFolder = (delivery: number): string => `delivery-${String(delivery)}`;
export const runFolder = (delivery: number, run: number): string =>
  run === 1 ? deliveryFolder(delivery) : `${deliveryFolder(delivery)}/run-${String(run)}`;
export const drawFolder = (delivery: number, draw: number): string => `${deliveryFolder(delivery)}/spot/draw-${String(draw)}`;
export const decisionFolder = (delivery: number, count: number): string =>
  `decisions/${deliveryFolder(delivery)}${count === 1 ? '' : `-${String(count)}`}`;

/** The folder of what goes with the film: the first time, and each time after it. */
export const sentFolder = (count: number): string => (count === 1 ? 'sent' : `sent/sent-${String(count)}`);

const DELIVERY = /^delivery-([1-9]\d{0,3})\/(.+)$/;
const RUN = /^(?:run-([1-9]\d{0,3})\/)?findings\.json$/;
const RULINGS = /^(?:run-[1-9]\d{0,3}\/)?rulings[^/]*\.(?:json|csv|tsv|xlsx|ods)$/i;
/** A list that came back, under a name of its own or under that of ours with something added. */
const ANSWERS = /^(?:run-[1-9]\d{0,3}\/)?(?:answers|discrepancies(?!\.[a-z]+$))[^/]*\.(?:csv|tsv|xlsx|ods)$/i;
const DRAW = /^(spot\/draw-[1-9]\d{0,3}(?:\/[^/]+)?)\/([^/]+)$/;
const DECISION = /^(decisions\/delivery-([1-9]\d{0,3})(?:-[1-9]\d{0,3})?)\/decision\.json$/;
const INVOICE = /^(invoices\/[^/]+)\/invoice\.json$/;

/** Whether a name is one that spreadsheet programs, systems or a writing program leave for themselves. */
export function isPassing(name: string): boolean {
  return name.split('/').some((part) => part.startsWith('.') || part.startsWith('~$') || /^(Thumbs\.db|desktop\.ini)$/i.test(part));
}

/** Tells from the names of all files what lies where. Names that belong nowhere are left out. */
export function layoutOf(names: readonly string[]): Layout {
  const all = names.filter((name) => !isPassing(name));
  const numbers = [...new Set(all.flatMap((name) => [Number(DELIVERY.exec(name)?.[1] ?? 0)]))].filter((number) => number > 0);
  return {
    record: all.filter((name) => name.startsWith('record/')),
    agreement: all.includes(AGREEMENT_FILE),
    profile: all.includes(PROFILE_FILE),
    account: all.includes(ACCOUNT_FILE),
    sent: all.filter((name) => name.startsWith('sent/')).toSorted((a, b) => timeSent(a) - timeSent(b)),
    deliveries: numbers.toSorted((a, b) => a - b).map((delivery) => deliveryIn(all, delivery)),
    invoices: byNumber(all.flatMap((name) => INVOICE.exec(name)?.[1] ?? [])),
  };
}

const timeSent = (name: string): number => Number(/^sent\/sent-(\d{1,4})\//.exec(name)?.[1] ?? 1);

function deliveryIn(names: readonly string[], delivery: number): DeliveryPlace {
  const folder = deliveryFolder(delivery);
  const inside = names.filter((name) => name.startsWith(`${folder}/`)).map((name) => name.slice(folder.length + 1));
  const runs = inside.flatMap((name) => {
    const found = RUN.exec(name);
    return found === null ? [] : [Number(found[1] ?? 1)];
  });
  const draws = new Map<string, string[]>();
  for (const name of inside) {
    const [, place, file] = DRAW.exec(name) ?? [];
    if (place !== undefined && file !== undefined) draws.set(place, [...(draws.get(place) ?? []), file]);
  }
  const whole = (name: string): string => `${folder}/${name}`;
  return {
    delivery,
    folder,
    runs: runs.toSorted((a, b) => a - b).map((run) => ({ run, folder: runFolder(delivery, run) })),
    rulings: inside.filter((name) => RULINGS.test(name)).map(whole),
    answers: inside.filter((name) => ANSWERS.test(name)).map(whole),
    draws: byNumber([...draws.keys()].filter((place) => draws.get(place)?.includes('draw.json') === true)).map((place) => ({
      folder: whole(place),
      throwFolder: whole(throwOf(place)),
      worksheets: (draws.get(throwOf(place)) ?? [])
        .filter((name) => name.startsWith('worksheet'))
        .map((name) => `${whole(throwOf(place))}/${name}`),
      judged: draws.get(place)?.includes('sample.json') === true,
    })),
    fixed: byNumber(
      [...draws.keys()].filter(
        (place) => draws.get(place)?.includes('plan.json') === true && draws.get(place)?.includes('draw.json') !== true,
      ),
    ).map((place) => ({ folder: whole(place), throwFolder: whole(throwOf(place)) })),
    decisions: byNumber(
      names.flatMap((name) => {
        const found = DECISION.exec(name);
        return found !== null && Number(found[2]) === delivery ? (found[1] ?? []) : [];
      }),
    ),
  };
}

/** `spot/draw-1` of `spot/draw-1/reel-00417`. */
const throwOf = (place: string): string => place.split('/').slice(0, 2).join('/');

/** In the order of the numbers in the names, so that 10 comes behind 9. */
function byNumber(names: readonly string[]): readonly string[] {
  const key = (name: string): string => name.replace(/\d+/g, (digits) => digits.padStart(9, '0'));
  return [...new Set(names)].toSorted((a, b) => (key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0));
}
