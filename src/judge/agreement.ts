import { CHECKS, DEFAULT_POLICIES, SAMPLING, TERMS, TOLERANCES } from '../catalogue/agreement.js';
import { codeEntry } from '../catalogue/codes.js';
import type { Agreement, Policies, PriceClass, ResolvedAgreement } from '../model/agreement.js';

/** Fills in what an agreement leaves out: the profile's defaults for policies, then ours. Lists are taken whole, never joined. */
export function resolveAgreement(agreement: Agreement | null, profileDefaults: Partial<Policies>): ResolvedAgreement {
  return {
    format: 'reeltally/agreement/2',
    library: agreement?.library ?? '',
    vendor: agreement?.vendor ?? '',
    policies: { ...DEFAULT_POLICIES, ...profileDefaults, ...agreement?.policies },
    tolerances: { ...TOLERANCES, ...agreement?.tolerances },
    severities: agreement?.severities ?? {},
    required: agreement?.required ?? CHECKS.map((check) => check.name),
    terms: {
      ...TERMS,
      ...agreement?.terms,
      classes: (agreement?.terms?.classes ?? []).map((entry) => ({ ...entry, charge: chargeOf(entry), per: entry.per ?? 'frame' })),
    },
    sampling: { ...SAMPLING, ...agreement?.sampling },
  };
}

/** What an agreement says that its schema cannot judge, in sentences without the file's name: codes that do not exist, classes named twice, classes that would pay a frame twice. */
export function agreementMistakes(agreement: Agreement): readonly string[] {
  const unknown = Object.keys(agreement.severities ?? {}).filter((code) => codeEntry(code) === undefined);
  const classes = (agreement.terms?.classes ?? []).map((entry) => entry.class);
  const overlaps = (agreement.terms?.classes ?? []).flatMap((entry, at, all) =>
    all
      .slice(at + 1)
      .filter((other) => other.class !== entry.class && holdSame(entry, other))
      .map(
        (other) =>
          `terms, classes: "${entry.class}" and "${other.class}" both pay ${sharedInWords(entry, other)} for the charge "${chargeOf(entry)}", so that each would be paid twice. Part them by kind or deliver, or give one another charge.`,
      ),
  );
  const twice = new Set(classes.filter((name, at) => classes.indexOf(name) !== at));
  return [
    ...unknown.map((code) => `severities: there is no finding code "${code}"; the codes are listed in the README.`),
    ...[...twice].map(
      (name) => `terms, classes: the class "${name}" is there more than once; an invoice line could not be told to belong to one of them.`,
    ),
    ...overlaps,
  ];
}

/** What a class pays for. */
function chargeOf({ charge }: PriceClass): string {
  return charge ?? 'scan';
}

/** Whether one frame, reel or batch could be in both classes of one charge. */
function holdSame(a: PriceClass, b: PriceClass): boolean {
  const [per, other] = [a.per ?? 'frame', b.per ?? 'frame'];
  if (chargeOf(a) !== chargeOf(b) || per !== other) return false;
  return per !== 'frame' || (a.deliver === b.deliver && a.kind.some((kind) => b.kind.includes(kind)));
}

function sharedInWords(a: PriceClass, b: PriceClass): string {
  if (a.per === 'reel') return 'a reel';
  if (a.per === 'batch') return 'the batch';
  const kinds = a.kind.filter((kind) => b.kind.includes(kind)).join(', ');
  return `${a.deliver ? 'delivered' : 'held-back'} frames (${kinds})`;
}
