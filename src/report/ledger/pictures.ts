import { html, type Markup, trusted } from '../html/markup.js';
import type { Month } from './overview.js';

/** A bar in a cell of a table, as long as its figure beside the highest; the figure stands beside it, so it says nothing to those who do not see it. */
export function rateBar(rate: number, most: number): Markup {
  if (most === 0) return html``;
  const width = Math.max(rate > 0 ? 1 : 0, Math.round((rate / most) * 60));
  return trusted(
    `<svg aria-hidden="true" focusable="false" width="60" height="8" viewBox="0 0 60 8"><rect width="60" height="8" fill="currentColor" fill-opacity="0.12"/><rect width="${String(width)}" height="8" fill="currentColor" fill-opacity="0.75"/></svg>`,
  );
}

/** Height of the pictures in their own units, for the highest figure of all vendors. */
const HEIGHT = 100;

/** The months of one vendor as bars, on the scale of all; the figures stand in the table below the pictures. */
export function monthPictures(name: string, months: readonly Month[], all: readonly Month[]): Markup {
  const [first, last] = [months[0], months.at(-1)];
  if (first === undefined || last === undefined) return html``;
  const scale = Math.max(0, ...all.map(({ rate }) => rate ?? 0));
  const pages = months.reduce((sum, month) => sum + month.pages, 0);
  const mean = pages === 0 ? 0 : (months.reduce((sum, { findings }) => sum + findings, 0) * 1000) / pages;
  const top = months.reduce((most, month) => ((month.rate ?? -1) > (most.rate ?? -1) ? month : most), first);
  const height = (rate: number): number => (scale === 0 ? 0 : (rate / scale) * (HEIGHT - 4));
  const bar = ({ rate }: Month, at: number): string => {
    const tall = height(rate ?? 0);
    return tall === 0 ? '' : `M${String(at * 8 + 1)} ${(HEIGHT - tall).toFixed(1)}h6v${tall.toFixed(1)}h-6z`;
  };
  const span = first === last ? first.month : `${first.month} to ${last.month}`;
  const said = `${span}: on the whole ${mean.toFixed(2)} for each 1,000 pages, at most ${(top.rate ?? 0).toFixed(2)} in ${top.month}`;
  const line =
    mean === 0 ? '' : `<path class="line" d="M0 ${(HEIGHT - height(mean)).toFixed(1)}h${String(Math.max(months.length, 24) * 8)}"/>`;
  return html`<h3>${name}</h3>
<figure class="counts"><svg class="bars" role="img" aria-label="Faults of ${name} by month, ${said}" viewBox="0 0 ${Math.max(months.length, 24) * 8} ${HEIGHT}" preserveAspectRatio="none">${trusted(
    `<path class="usual" d="${months.map(bar).join('')}"/>${line}`,
  )}</svg><figcaption>${said}</figcaption></figure>
`;
}
