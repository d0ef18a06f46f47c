import type { Correction, Finding, Findings } from '../../model/findings.js';
import { recordChange } from '../record-changes.js';
import { inRuns } from '../runs.js';
import { inWords } from '../text/finding.js';
import { counted } from '../words.js';
import { fold } from './fold.js';
import { html, type Markup } from './markup.js';
import { table } from './table.js';

const MOST = 24;

const ACTIONS = { set: 'set', 'insert-after': 'insert after', remove: 'remove', renumber: 'renumber' } as const;

/** Corrections of one kind on frames that follow each other as one line. */
function lines(list: readonly Correction[]): readonly { readonly first: Correction; readonly frames: readonly string[] }[] {
  const found = new Map<string, { readonly first: Correction; readonly frames: string[] }>();
  for (const correction of list) {
    const { reel, action, field, from, to } = correction;
    const number = action === 'renumber' ? Number(to) - Number(from) : action === 'remove' ? '' : `${from}>${to}`;
    const key = JSON.stringify([reel, action, field, number]);
    const line = found.get(key) ?? { first: correction, frames: [] };
    found.set(key, line);
    line.frames.push(correction.frame);
  }
  return [...found.values()];
}

function changed({ action, from, to }: Correction, frames: readonly string[]): readonly [from: string, to: string] {
  return action === 'renumber' && frames.length > 1 ? [`${from} …`, `${to} …`] : [from, to];
}

/** What is to be changed in the library's own record if that is wrong, or why nothing can be named. */
export function recordSide(finding: Finding, result: Findings): Markup {
  const { corrections, why } = recordChange(finding, result);
  const all = lines(corrections);
  const more = all.length - MOST;
  const rows = all
    .slice(0, MOST)
    .map(({ first, frames }) => [first.reel, inRuns(frames), ACTIONS[first.action], inWords(first.field), ...changed(first, frames)]);
  const changes = table({ caption: 'Changes to the record', rowHeads: false }, ['Reel', 'frames', 'change', 'field', 'from', 'to'], rows);
  return fold(
    'record-side',
    'If our record is wrong: what to change in it',
    html`${why !== null && html`<p>${why}</p>`}${changes}${more > 0 && html`<p>and ${counted(more, 'more change')}; collation-corrections.csv names them all.</p>`}`,
  );
}
