import type { PageData } from '../page-data.js';
import { element } from './elements.js';

/** A finding of the page with its row in the list. */
export interface Entry {
  readonly at: number;
  readonly id: string;
  readonly anchor: string;
  readonly severity: string;
  /** The finding itself. */
  readonly body: HTMLElement;
  readonly row: HTMLAnchorElement;
  /** Where the row says what is decided. */
  readonly told: HTMLElement;
}

/** The data that stand in the page. */
export function readData(): PageData {
  return JSON.parse(document.getElementById('data')?.textContent ?? '') as PageData;
}

function rowOf(body: HTMLElement, at: number): { readonly row: HTMLAnchorElement; readonly told: HTMLElement } {
  const row = element('a', 'row');
  row.href = `#${body.id}`;
  const sign = body.querySelector('.severity .mark')?.cloneNode(true);
  const mark = element('span', `severity ${body.dataset.severity ?? ''}`);
  if (sign !== undefined) mark.append(sign, element('span', 'unseen', body.dataset.severity ?? ''));
  const told = element('span', 'told');
  row.append(
    mark,
    element('b', 'number', String(at + 1)),
    element('span', 'title', body.querySelector('.title')?.textContent ?? ''),
    element('span', 'place', body.dataset.place ?? ''),
    told,
  );
  return { row, told };
}

/** The findings of the page in the order of the list, each with a row for it. */
export function entriesOf(data: PageData): readonly Entry[] {
  return [...document.querySelectorAll<HTMLElement>('.finding')].map((body, at) => ({
    at,
    id: data.findings[at]?.id ?? '',
    anchor: body.id,
    severity: body.dataset.severity ?? '',
    body,
    ...rowOf(body, at),
  }));
}
