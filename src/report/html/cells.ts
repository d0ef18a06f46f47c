import type { ResultFrame, Severity } from '../../model/findings.js';
import { KINDS } from './marks.js';
import { escaped, type Markup, trusted } from './markup.js';
import { type Sign, signText, type Told, weightAt } from './signs.js';

/** The kind of a frame with the letter that stands for it. */
export function kindOf(frame: ResultFrame): readonly [kind: string, letter: string] {
  return KINDS.find(([kind]) => kind === frame.kind) ?? ['other', 'O'];
}

/** Classes that draw how much the worst finding at a frame weighs. */
export const WEIGHT_CLASSES: Readonly<Record<Severity, string>> = { critical: 'wc', major: 'wm', minor: 'wi', note: 'wn' };

/** The classes of a sign with its weight. */
export function signClasses(sign: Sign, weight: Severity | null): string {
  return weight === null ? signText(sign).css : `${signText(sign).css} ${WEIGHT_CLASSES[weight]}`;
}

/** The classes of a cell: first letters that the style sheet gives shape and colour. Short, for a reel has thousands. */
export function cellClasses(frame: ResultFrame, told: Told): string {
  return `${kindOf(frame)[0].charAt(0)} ${signClasses(frame.state, weightAt(frame, told))}${frame.deliver ? '' : ' held'}`;
}

/** Frames as a row of small cells that stands as one picture with a description; what each stands for is said by the group it is in. */
export function smallStrip(frames: readonly ResultFrame[], told: Told, description: string): Markup {
  const cells = frames.map((frame) => `<i class="${cellClasses(frame, told)}">${kindOf(frame)[1]}</i>`);
  return trusted(`<span class="strip" role="img" aria-label="${escaped(description)}">${cells.join('')}</span>`);
}

/** What a frame shows, such as `page A3` or `blank`. */
export function showsWhat(frame: ResultFrame): string {
  if (frame.kind !== 'page') return frame.kind;
  return frame.page === null ? 'page without a number' : `page ${frame.page}`;
}
