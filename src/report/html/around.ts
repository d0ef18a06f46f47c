import type { Findings } from '../../model/findings.js';
import type { PicturesFile } from '../../model/pictures.js';
import type { RenderOptions } from '../formats.js';
import { worstFirst } from '../words.js';
import { anchorOf } from './links.js';
import { html, type Markup } from './markup.js';
import { type Told, toldOf } from './signs.js';

/** What the pictures of a film's issues need: those of a result, or of a record that was not held against anything yet. */
export interface Filmed {
  readonly result: Pick<Findings, 'titles' | 'reels' | 'findings'>;
  /** True where there is no return: nothing is said of what came. */
  readonly alone: boolean;
  /** Place of each finding in the list, worst first, by its id. */
  readonly places: ReadonlyMap<string, number>;
  /** What is told of the frames. */
  readonly told: Told;
}

/** What every part of the report needs to know of the whole. */
export interface Around extends Filmed {
  readonly result: Findings;
  readonly options: RenderOptions;
  /** What was made of a file of the batch to be looked at, by its path. */
  readonly made: ReadonlyMap<string, PicturesFile['pictures'][number]>;
}

/** Gathers that once for a report. */
export function around(result: Findings, options: RenderOptions): Around {
  return {
    result,
    options,
    alone: false,
    places: new Map(worstFirst(result.findings).map((finding, at) => [finding.id, at])),
    told: toldOf(result),
    made: new Map(options.pictures?.pictures.map((one) => [one.path, one])),
  };
}

/** The name of a title, else its identifier. */
export function titleName({ result }: Filmed, id: string | null): string {
  const name = result.titles.find((title) => title.id === id)?.name ?? '';
  return name === '' ? (id ?? 'No title') : name;
}

/** The address of a finding within the page and its number, from 1; null where the list has no such finding. */
export function findingTarget({ places }: Filmed, id: string): { readonly href: string; readonly number: number } | null {
  const at = places.get(id);
  return at === undefined ? null : { href: `#${anchorOf(id, at)}`, number: at + 1 };
}

/** A link to a finding with something in it; nothing where the list has no such finding. */
export function findingLink(whole: Filmed, id: string, inside: (number: number) => Markup): Markup | null {
  const target = findingTarget(whole, id);
  return target === null ? null : html`<a href="${target.href}">${inside(target.number)}</a>`;
}
