import { CHECKS, DEFAULT_POLICIES, SAMPLING, TERMS, TOLERANCES } from '../catalogue/agreement.js';
import { codeEntry } from '../catalogue/codes.js';
import type { Agreement, Policies, ResolvedAgreement } from '../model/agreement.js';

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
    terms: { ...TERMS, ...agreement?.terms },
    sampling: { ...SAMPLING, ...agreement?.sampling },
  };
}

/** What an agreement says that its schema cannot judge, in sentences without the file's name: codes that do not exist, classes named twice. */
export function agreementMistakes(agreement: Agreement): readonly string[] {
  const unknown = Object.keys(agreement.severities ?? {}).filter((code) => codeEntry(code) === undefined);
  const classes = (agreement.terms?.classes ?? []).map((entry) => entry.class);
  const twice = new Set(classes.filter((name, at) => classes.indexOf(name) !== at));
  return [
    ...unknown.map((code) => `severities: there is no finding code "${code}"; the codes are listed in the README.`),
    ...[...twice].map(
      (name) => `terms, classes: the class "${name}" is there more than once; an invoice line could not be told to belong to one of them.`,
    ),
  ];
}
