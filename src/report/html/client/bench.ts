import { type Filter, NO_FILTER, readAddress, writeAddress } from './address.js';
import { byId, element } from './elements.js';
import type { Entry } from './entries.js';
import { fitting } from './fits.js';
import { showPart } from './parts.js';

/** The list of findings with the one that is chosen. */
export interface Bench {
  readonly chosen: () => Entry | null;
  /** Chooses the next finding that is listed, or the one before. */
  readonly step: (by: 1 | -1) => void;
  /** Looks again at which findings fit, after something was decided. */
  readonly refresh: () => void;
}

/** The signs of the film at a glance by the place of each finding that they stand for. */
function signsByFinding(): ReadonlyMap<number, readonly HTMLElement[]> {
  const found = new Map<number, HTMLElement[]>();
  for (const sign of document.querySelectorAll<HTMLElement>('.bar [data-findings]')) {
    for (const number of (sign.dataset.findings ?? '').split(' ')) {
      const at = Number(number) - 1;
      const own = found.get(at) ?? [];
      found.set(at, own);
      own.push(sign);
    }
  }
  return found;
}

/** Rows in one box, which a browser lays out when it comes into view. */
const SHELF = 50;

function onShelves(entries: readonly Entry[]): readonly HTMLElement[] {
  return Array.from({ length: Math.ceil(entries.length / SHELF) }, (_, at) => {
    const shelf = element('div', 'shelf');
    shelf.append(...entries.slice(at * SHELF, at * SHELF + SHELF).map(({ row }) => row));
    return shelf;
  });
}

/** Fills the list, follows the address, and calls back when another finding is chosen. */
export function startBench(entries: readonly Entry[], decided: (entry: Entry) => boolean, onChoose: (entry: Entry | null) => void): Bench {
  const list = byId('list', HTMLElement);
  const form = byId('filters', HTMLFormElement);
  const state = byId('state', HTMLSelectElement);
  const find = byId('find', HTMLInputElement);
  const shown = byId('shown', HTMLElement);
  const boxes = [...form.querySelectorAll<HTMLInputElement>('input[name="severity"]')];
  const signs = signsByFinding();
  const shelves = onShelves(entries);
  const rows = new Map<Element | null, Entry>(entries.map((entry) => [entry.row, entry]));
  let chosen: Entry | null = null;
  let filter: Filter = NO_FILTER;
  let listed: readonly Entry[] = entries;

  const write = (): void => {
    history.replaceState(null, '', writeAddress({ anchor: chosen?.anchor ?? 'findings', filter }));
  };

  /** Brings a row into view within the list alone: the page itself stays where it is. */
  const reveal = (row: HTMLElement): void => {
    const [own, frame] = [row.getBoundingClientRect(), list.getBoundingClientRect()];
    if (own.top < frame.top) list.scrollTop += own.top - frame.top;
    else if (own.bottom > frame.bottom) list.scrollTop += own.bottom - frame.bottom;
  };

  const choose = (entry: Entry | null): void => {
    if (entry !== chosen) {
      chosen?.body.classList.remove('chosen');
      chosen?.row.removeAttribute('aria-current');
      entry?.body.classList.add('chosen');
      entry?.row.setAttribute('aria-current', 'true');
      for (const sign of signs.get(chosen?.at ?? -1) ?? []) sign.classList.remove('here');
      for (const sign of signs.get(entry?.at ?? -1) ?? []) sign.classList.add('here');
      chosen = entry;
      onChoose(entry);
      byId('pane', HTMLElement).scrollTop = 0;
    }
    if (entry !== null) reveal(entry.row);
  };

  const refresh = (): void => {
    const fits = fitting(filter);
    listed = entries.filter((entry) => {
      const here = fits(entry, decided(entry));
      entry.row.hidden = !here;
      return here;
    });
    const used = new Set(listed.map(({ row }) => row.parentElement));
    for (const shelf of shelves) shelf.classList.toggle('bare', !used.has(shelf));
    shown.textContent =
      listed.length === entries.length
        ? `All ${String(entries.length)} listed.`
        : `${String(listed.length)} of ${String(entries.length)} listed.`;
  };

  const apply = (next: Filter): void => {
    filter = next;
    for (const box of boxes) box.checked = !filter.without.includes(box.value);
    state.value = filter.state;
    if (find.value !== filter.words) find.value = filter.words;
    refresh();
  };

  const fromForm = (): void => {
    apply({ without: boxes.filter((box) => !box.checked).map(({ value }) => value), state: state.value, words: find.value });
    choose(chosen !== null && listed.includes(chosen) ? chosen : (listed[0] ?? null));
    write();
  };

  /** Takes the reader from the list to the finding. */
  const visit = ({ body }: Entry): void => {
    body.querySelector('h3')?.focus({ preventScroll: true });
    if (!matchMedia('(min-width: 64rem)').matches) body.scrollIntoView();
  };

  const follow = (): void => {
    const { anchor, filter: given } = readAddress(location.hash);
    const named = entries.find((entry) => entry.anchor === anchor) ?? null;
    if (given !== null) apply(given);
    // What the address names is shown even where a filter would hide it.
    if (named !== null && !listed.includes(named)) apply(NO_FILTER);
    if (!showPart(anchor)) return;
    choose(named ?? (chosen !== null && listed.includes(chosen) ? chosen : (listed[0] ?? null)));
    if (named !== null) {
      write();
      visit(named);
    }
  };

  list.append(...shelves);
  list.addEventListener('click', (event) => {
    const entry = event.target instanceof Element ? rows.get(event.target.closest('a')) : undefined;
    if (entry === undefined || event.ctrlKey || event.metaKey || event.shiftKey) return;
    // Going there by the address would do the same, and look at all of it anew.
    event.preventDefault();
    choose(entry);
    history.pushState(null, '', writeAddress({ anchor: entry.anchor, filter }));
    visit(entry);
  });
  form.addEventListener('change', fromForm);
  find.addEventListener('input', fromForm);
  form.addEventListener('submit', (event) => {
    event.preventDefault();
  });
  byId('reset', HTMLButtonElement).addEventListener('click', () => {
    apply(NO_FILTER);
    choose(chosen ?? listed[0] ?? null);
    write();
  });
  // Every way to another address in the page comes by here, links and the keys of the browser alike.
  addEventListener('popstate', follow);
  apply(NO_FILTER);
  follow();

  return {
    chosen: () => chosen,
    step: (by) => {
      const here = chosen?.at ?? -1;
      const next = by === 1 ? listed.find(({ at }) => at > here) : listed.findLast(({ at }) => at < here);
      if (next === undefined) return;
      const inList = list.contains(document.activeElement);
      choose(next);
      write();
      if (inList) next.row.focus({ preventScroll: true });
    },
    refresh,
  };
}
