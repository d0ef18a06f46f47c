import { CHECKS, DEFAULT_POLICIES, POLICIES, SAMPLING, TERMS, TOLERANCES } from '../catalogue/agreement.js';
import type { Policies } from '../model/agreement.js';

/** What a built-in profile sets, for the help. */
export interface ProfileDefaults {
  readonly name: string;
  readonly policies: Partial<Policies>;
}

const width = 100;

/** What an agreement can say and what holds where it says nothing: the text of `help agreement` and of `verify --help-agreement`. */
export function agreementHelp(profiles: readonly ProfileDefaults[]): string {
  return `${[opening(), policies(profiles), tolerances(), severities(), required(), terms(), sampling()].join('\n\n')}\n`;
}

function opening(): string {
  const example = [
    '  {',
    '    "format": "reeltally/agreement/2",',
    '    "library": "Verrin Coast Record Library",',
    '    "policies": { "pageNumber": "printed" },',
    '    "tolerances": { "majorShare": 0.005 }',
    '  }',
  ];
  return [
    ...wrap('The agreement is a JSON file. Only "format" must be there; everything else has the default given here.', ''),
    '',
    ...example,
    '',
    ...wrap('"library" and "vendor" are names for the reports (default: empty).', ''),
  ].join('\n');
}

function policies(profiles: readonly ProfileDefaults[]): string {
  const entries = POLICIES.flatMap(({ name, means, values }) => [
    ...entry(name, means),
    ...values.flatMap(({ value, means: text }) =>
      wrap(`${value}${value === DEFAULT_POLICIES[name] ? ' (default)' : ''}: ${text}`, '    ', '      '),
    ),
  ]);
  const others = profiles.flatMap(({ name, policies: set }) => {
    const parts = Object.entries(set).map(([policy, value]) => `${policy} ${value}`);
    return parts.length === 0 ? [] : wrap(`Profile ${name}: ${parts.join(', ')}.`, '  ', '    ');
  });
  const note =
    others.length === 0
      ? []
      : ['', ...wrap('A profile has defaults of its own, which go before these; the agreement goes before both.', '  '), ...others];
  return ['policies', ...entries, ...note].join('\n');
}

function tolerances(): string {
  return [
    'tolerances',
    ...entry(
      'majorShare',
      `Share of delivered pages with a major finding above which the batch goes back (default: ${TOLERANCES.majorShare}, that is ${percent(TOLERANCES.majorShare)}).`,
    ),
    ...entry(
      'minorShare',
      `Share of delivered pages with a minor finding above which corrections are asked for (default: ${TOLERANCES.minorShare}, that is ${percent(TOLERANCES.minorShare)}).`,
    ),
  ].join('\n');
}

function severities(): string {
  return ['severities', ...wrap('By finding code: critical, major, minor or note (default: the usual severity of the code).', '  ')].join(
    '\n',
  );
}

function required(): string {
  const checks = CHECKS.flatMap(({ name, means }) => wrap(`${name}: ${means}`, '    ', '      '));
  return ['required', ...wrap('List of checks without which a batch cannot be accepted (default: all).', '  '), ...checks].join('\n');
}

function terms(): string {
  return [
    'terms',
    ...entry('reviewDays', `Days for the library's answer (default: ${TERMS.reviewDays}).`),
    ...entry('reviewDayKind', `calendar or working (default: ${TERMS.reviewDayKind}); working days are Monday to Friday without holidays.`),
    ...entry('holidays', 'List of days, YYYY-MM-DD (default: none).'),
    ...entry('currency', 'Three letters, such as EUR (default: none).'),
    ...entry(
      'payOn',
      `accepted: due on deliveries that are accepted or accepted with corrections; accepted-pages: the accepted frames of a delivery that goes back as well (default: ${TERMS.payOn}).`,
    ),
    ...entry('rounding', `${TERMS.rounding}: each line to the minor unit, halves away from zero (the only way there is).`),
    ...entry('classes', 'List of price classes (default: none), each with'),
    ...wrap('class: its name on the invoice', '    ', '      '),
    ...wrap('kind: list of page, blank, target, void, other', '    ', '      '),
    ...wrap('deliver: true for delivered frames, false for frames held back', '    ', '      '),
    ...wrap('charge: what is paid for, such as text (default: scan); a frame is paid once for each charge', '    ', '      '),
    ...wrap(
      'per: frame, reel or batch (default: frame); a reel and a batch are paid once, when the first frame is accepted',
      '    ',
      '      ',
    ),
    ...wrap('includes: duplicates or rescans (may be left out)', '    ', '      '),
    ...wrap('unitPrice: text such as "0.32" (may be left out)', '    ', '      '),
    ...wrap('net: true where tax comes on top of the price, false where it is in it (default: true)', '    ', '      '),
    ...wrap('Two classes of one charge that can hold the same frame are refused: each frame would be paid twice.', '    '),
  ].join('\n');
}

function sampling(): string {
  return [
    'sampling',
    ...entry('plan', `limiting-quality, acceptance-quality-limit or share (default: ${SAMPLING.plan}).`),
    ...entry('level', `Inspection level I, II, III, S-1 to S-4, for acceptance-quality-limit (default: "${SAMPLING.level}").`),
    ...entry('aql', `Acceptance quality limit in percent (default: "${SAMPLING.aql}").`),
    ...entry('limitingQuality', `Percent of wrong units that the sample shall not let through (default: "${SAMPLING.limitingQuality}").`),
    ...entry('risk', `Highest chance of letting it through all the same (default: "${SAMPLING.risk}").`),
    ...entry('unit', `What is drawn: page or issue (default: ${SAMPLING.unit}).`),
  ].join('\n');
}

function entry(name: string, text: string): readonly string[] {
  return wrap(`${name.padEnd(15)} ${text}`, '  ', ' '.repeat(18));
}

function percent(share: number): string {
  return `${Number((share * 100).toPrecision(6))} %`;
}

/** Breaks a text into lines of at most `width` characters; `first` stands before the first line, `next` before the others. */
function wrap(text: string, first: string, next: string = first): readonly string[] {
  const lines: string[] = [];
  let line = first;
  for (const word of text.split(/(?<=\S) (?=\S)/)) {
    const isEmpty = line === first || line === next;
    if (!isEmpty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = next + word;
    } else line += isEmpty ? word : ` ${word}`;
  }
  return [...lines, line];
}
