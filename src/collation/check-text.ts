import { weekdayName } from '../calendar/weekday-names.js';
import type { Weekday } from '../model/collation-record.js';
import type { RecordCheck, RecordItem } from '../model/record-check.js';
import { inSeries } from '../normalise/in-series.js';

/** So many items of one code are told in full; the others stand in the other forms. */
const TOLD = 10;

/** The check as text: the totals, the titles with their days, and the open items by cause, the most telling first. */
export function checkText({ totals, titles, items, catalogue }: RecordCheck): string {
  const open = items.filter(({ explained }) => explained === null);
  const lines = [`The record: ${totals}`, ...titles.map(titleInWords), ''];
  if (open.length === 0) lines.push('Nothing in it contradicts itself.');
  for (const { code, title, why } of catalogue) {
    const own = open.filter((item) => item.code === code);
    if (own.length === 0) continue;
    lines.push(`${title} (${String(own.length)})`, `  ${why}`, '');
    for (const item of own.slice(0, TOLD)) lines.push(...itemInWords(item), '');
    if (own.length > TOLD) lines.push(`  and ${String(own.length - TOLD)} more of this kind.`, '');
  }
  const explained = items.length - open.length;
  if (explained > 0) lines.push('', `${String(explained)} ${explained === 1 ? 'item is' : 'items are'} explained and not listed.`);
  return `${lines
    .join('\n')
    .replace(/\n{3,}/g, '\n\n')
    .trimEnd()}\n`;
}

function titleInWords({ id, name, issues, from, to, days, learned }: RecordCheck['titles'][number]): string {
  const span = from === null || to === null ? '' : ` from ${from} to ${to}`;
  const words = days.map((day) => weekdayName(day as Weekday));
  const when =
    words.length === 0 ? 'no days of publication are known' : `on ${words.join(', ')}${learned ? ' (learned from its issues)' : ''}`;
  return `${name === id ? id : `${name} (${id})`}: ${String(issues)} issue${issues === 1 ? '' : 's'}${span}, ${when}.`;
}

function itemInWords({ id, says, likely, reel, frames, count, evidence, places }: RecordItem): readonly string[] {
  const film =
    frames === null || reel === null
      ? null
      : `reel ${reel}, frame${frames.from === frames.to ? ` ${frames.from}` : `s ${frames.from} to ${frames.to} (${String(count)})`}`;
  const rows = [...new Set(places.map(({ sheet }) => sheet))].map((sheet) => {
    const own = places.filter((place) => place.sheet === sheet).map(({ row }) => row);
    return `${sheet}, row${own.length === 1 ? '' : 's'} ${rowsInWords(own)}`;
  });
  const where = [...(film === null ? [] : [film]), ...rows].join('; ');
  return [
    `  ${says}`,
    ...evidence.map((sentence) => `    ${sentence}`),
    ...(likely === null ? [] : [`    Likely: ${likely}`]),
    ...(where === '' ? [] : [`    ${where}`]),
    `    item ${id}`,
  ];
}

/** `4`, `4 to 8`, `4 to 8, 12 and 15`. */
function rowsInWords(rows: readonly number[]): string {
  const runs: number[][] = [];
  for (const row of rows.toSorted((a, b) => a - b)) {
    const run = runs.at(-1);
    if (run !== undefined && run.at(-1) === row - 1) run.push(row);
    else runs.push([row]);
  }
  return inSeries(runs.map((run) => (run.length === 1 ? String(run[0]) : `${String(run[0])} to ${String(run.at(-1))}`)));
}
