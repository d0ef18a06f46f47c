import type { Repair } from '../model/findings.js';
import { inRuns } from './runs.js';
import { inWords } from './text/finding.js';

/** The steps of a repair in words, those that ask for the same in one document together; so many of them, with how many more there are and `elsewhere`, where those stand. Documents among `shown` are called by their last name, the only one there is not at all. */
export function repairInWords(steps: readonly Repair[], most: number, shown: readonly string[], elsewhere: string): string {
  const groups: Repair[][] = [];
  for (const step of steps) {
    const like = groups.find(
      ([first]) => first?.document === step.document && first.reel === step.reel && actInWords(first) === actInWords(step),
    );
    if (like === undefined) groups.push([step]);
    else like.push(step);
  }
  const only = new Set(steps.map(({ document }) => document)).size === 1;
  const name = (document: string | null): string | null => {
    if (document === null || (only && shown.includes(document))) return null;
    return shown.includes(document) ? document.slice(document.lastIndexOf('/') + 1) : document;
  };
  const several = new Set(steps.flatMap(({ reel }) => reel ?? [])).size > 1;
  const more = groups.length - most;
  const words = groups.slice(0, most).map((group) => {
    const { document = null, reel } = group[0] ?? {};
    return groupInWords(group, name(document) ?? (several && reel !== undefined ? `reel ${reel}` : null));
  });
  return [...words, ...(more > 0 ? [`and ${String(more)} more ${elsewhere}`] : [])].join(' | ');
}

/** Steps that ask for the same: where, in the vendor's own names, and what is done there. */
function groupInWords(group: readonly Repair[], holder: string | null): string {
  const [first] = group;
  if (first === undefined) return '';
  const frames = [...new Set(group.flatMap(({ frame }) => frame ?? []))];
  const element = group.length === 1 && frames.length === 0 ? first.element : null;
  const where = [
    holder,
    element,
    frames.length === 0
      ? null
      : `${frames.length === 1 && !frames[0]?.includes(' ') ? 'frame' : 'frames'} ${inRuns(frames)}${ofTheRecord(first)}`,
  ];
  const text = where.filter((part) => part !== null).join(', ');
  return `${text}${text === '' ? '' : ': '}${actInWords(first)}`;
}

/** The frame of a step, in the vendor's own number; what did not come has none, and is called by the number that the record gives it. */
export const frameOfStep = (step: Repair): string => (step.frame === null ? '' : `${step.frame}${ofTheRecord(step)}`);

/** What is asked for where nothing came bears the record's number, which may be that of another frame in the return. */
function ofTheRecord({ numberedBy }: Repair): string {
  return numberedBy === 'record' ? ' of the record' : '';
}

/** The name of a field, and of the other place that states it where the field is a copy: `date in the folder name`. */
function fieldInWords(field: string): string {
  const [fact = '', ...source] = field.split(' ');
  return source.length === 0 ? inWords(fact) : `${inWords(fact)} in the ${source.join(' ')}`;
}

/** What is done in one step. */
export function actInWords({ do: act, field, from, to }: Repair): string {
  const what = field === null ? null : fieldInWords(field);
  switch (act) {
    case 'set':
      if (what === null) return 'correct it';
      if (from === null) return `give the ${what} ${to ?? ''}`.trimEnd();
      return to === null ? `take off the ${what} ${from}` : `${what} ${from} becomes ${to}`;
    case 'renumber':
      return `number${what === null || field === 'frame' ? '' : what.slice(what.indexOf(' '))} ${to ?? ''}`;
    case 'remove':
      if (field === 'absence') return `take out the statement${from === null ? '' : ` "${from}"`}`;
      return what === null ? 'take out' : `take out the ${what}${from === null ? '' : ` ${from}`}`;
    case 'add':
      if (field === 'frame') return 'count the frame';
      if (field === 'absence') return `state${to === null ? ' what is not on the film' : `: ${to}`}`;
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
