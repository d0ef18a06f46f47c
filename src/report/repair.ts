import type { Repair } from '../model/findings.js';
import { inWords } from './text/finding.js';

/** The steps of a repair in words, so many of them, with how many more there are. */
export function repairInWords(steps: readonly Repair[], most: number): string {
  const more = steps.length - most;
  return [...steps.slice(0, most).map(stepInWords), ...(more > 0 ? [`and ${String(more)} more, which findings.json names`] : [])].join(
    ' | ',
  );
}

/** One step: where, in the vendor's own names, and what is done there. */
export function stepInWords(step: Repair): string {
  const where = [step.document, step.element, step.frame === null ? null : `frame ${step.frame}`].filter((part) => part !== null);
  return `${where.join(', ')}${where.length > 0 ? ': ' : ''}${actInWords(step)}`;
}

/** What is done in one step. */
export function actInWords({ do: act, field, from, to }: Repair): string {
  const what = field === null ? null : inWords(field);
  switch (act) {
    case 'set':
      if (what === null) return 'correct it';
      if (from === null) return `give the ${what} ${to ?? ''}`.trimEnd();
      return to === null ? `take off the ${what} ${from}` : `${what} ${from} becomes ${to}`;
    case 'renumber':
      return `number ${to ?? ''}`;
    case 'remove':
      return what === null ? 'take out' : `take out the ${what}${from === null ? '' : ` ${from}`}`;
    case 'add':
      return what === null ? `put in${to === null ? '' : ` as page ${to}`}` : `put in the ${what}${to === null ? '' : ` ${to}`}`;
    case 'move':
    case 'merge':
    case 'split':
      return `move to ${to ?? 'its own document'}`;
    case 'exchange':
      return `exchange with ${to ?? '?'}`;
    case 'rescan':
      return 'scan again';
  }
}
