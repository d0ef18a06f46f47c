import type { Findings } from '../../model/findings.js';
import type { RenderOptions } from '../formats.js';
import { worstFirst } from '../words.js';
import { anchorOf } from './links.js';
import { html, type Markup } from './markup.js';

/** What every part of the report needs to know of the whole. */
export interface Around {
  readonly result: Findings;
  readonly options: RenderOptions;
  /** Place of each finding in the list, worst first, by its id. */
  readonly places: ReadonlyMap<string, number>;
  /** The findings about the numbers of frames alone, by the fact that they name. */
  readonly numbering: ReadonlySet<string>;
}

/** Gathers that once for a report. */
export function around(result: Findings, options: RenderOptions): Around {
  return {
    result,
    options,
    places: new Map(worstFirst(result.findings).map((finding, at) => [finding.id, at])),
    numbering: new Set(result.findings.filter(({ field }) => field === 'frame' || field === 'number').map(({ id }) => id)),
  };
}

/** The name of a title, else its identifier. */
export function titleName({ result }: Around, id: string | null): string {
  const name = result.titles.find((title) => title.id === id)?.name ?? '';
  return name === '' ? (id ?? 'No title') : name;
}

/** A link to a finding with something in it; the thing alone where the list has no such finding. */
export function findingLink({ places }: Around, id: string, inside: (number: number) => Markup): Markup | null {
  const at = places.get(id);
  return at === undefined ? null : html`<a href="#${anchorOf(id, at)}">${inside(at + 1)}</a>`;
}
