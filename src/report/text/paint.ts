import type { Decision, Severity } from '../../model/findings.js';

/** Select Graphic Rendition numbers of ECMA-48 section 8.3.117: 1 bold, 31 red, 32 green, 33 yellow, 36 cyan. */
const SEVERITY_CODE: Readonly<Record<Severity, string>> = { critical: '1;31', major: '33', minor: '36', note: '2' };
const DECISION_CODE: Readonly<Record<Decision, string>> = {
  accept: '1;32',
  'accept-with-corrections': '1;33',
  'return-for-rework': '1;31',
  'cannot-decide': '1;33',
};

/** Colours words where colour is wanted; the words alone say everything. */
export interface Paint {
  readonly severity: (severity: Severity, text: string) => string;
  readonly decision: (decision: Decision, text: string) => string;
}

const inColour = (code: string, text: string): string => `\u001b[${code}m${text}\u001b[0m`;

/** The brush for a report, with or without colour. */
export function paint(colour: boolean): Paint {
  if (!colour) return { severity: (_, text) => text, decision: (_, text) => text };
  return {
    severity: (severity, text) => inColour(SEVERITY_CODE[severity], text),
    decision: (decision, text) => inColour(DECISION_CODE[decision], text),
  };
}
