import type { Findings } from '../../model/findings.js';
import type { RenderOptions } from '../formats.js';
import { worstFirst } from '../words.js';
import { anchorOf } from './links.js';
import { html, type Markup } from './markup.js';

/** What the pictures of a film's issues need: those of a result, or of a record that was not held against anything yet. */
export interface Filmed {
  readonly result: Pick<Findings, 'titles' | 'reels' | 'findings'>;
  /** True where there is no return: nothing is said of what came. */
  readonly alone: boolean;
  /** Place of each finding in the list, worst first, by its id. */
  readonly places: ReadonlyMap<string, number>;
  /** The findings about the numbers of frames alone, by the fact that they name. */
  readonly numbering: ReadonlySet<string>;
}

/** What every part of the report needs to know of the whole. */
export interface Around extends Filmed {
  readonly result: Findings;
  readonly options: RenderOptions;
}

/** Gathers that once for a report. */
export function around(result: Findings, options: RenderOptions): Around {
  return {
    result,
    options,
    alone: false,
    places: new Map(worstFirst(result.findings).map((finding, at) => [finding.id, at])),
    numbering: new Set(result.findings.filter(({ field }) => field === 'frame' || field === 'number').map(({ id }) => id)),
  };
}

/** The name of a title, else its identifier. */
export function titleName({ result }: Filmed, id: string | null): string {
  const name = result.titles.find((title) => title.id === id)?.name ?? '';
  return name === '' ? (id ?? 'No title') : name;
}

/** A link to a finding with something in it; the thing alone where the list has no such finding. */
export function findingLink({ places }: Filmed, id: string, inside: (number: number) => Markup): Markup | null {
  const at = places.get(id);
  return at === undefined ? null : html`<a href="#${anchorOf(id, at)}">${inside(at + 1)}</a>`;
}
