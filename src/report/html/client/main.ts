import type { Ruling } from '../../../model/rulings.js';
import { type Bench, startBench } from './bench.js';
import { byId, element } from './elements.js';
import { type Entry, entriesOf, readData } from './entries.js';
import { readAhead } from './fits.js';
import { foldFilm, foldIn, unfoldIn } from './folds.js';
import { heedKeys } from './keys.js';
import { WORDS } from './loading.js';
import { showPart } from './parts.js';
import { startPictures } from './picture.js';
import { knownDecision } from './ruling-file.js';
import { startRulings } from './rulings.js';

/** The list, what is chosen of it and what is decided about that, wired to each other. */
function work(): void {
  const data = readData();
  const entries = entriesOf(data);
  const [note, help] = [byId('note', HTMLTextAreaElement), byId('keys', HTMLDialogElement)];
  const buttons = [...document.querySelectorAll<HTMLButtonElement>('[data-decision]')];
  for (const id of ['tools', 'decide']) byId(id, HTMLElement).hidden = false;
  let bench: Bench | null = null;
  /** What was written about findings, whether they are decided or not. */
  const drafts = new Map<string, string>();

  const row = ({ id, told, row: line, body }: Entry): void => {
    const ruling = decisions.of(id);
    told.textContent = ruling === null ? '' : `\u2713 ${WORDS[ruling.decision]}`;
    mark(body, decisions.marked(id));
    line.classList.toggle('done', ruling !== null);
  };
  const show = (entry: Entry | null): void => {
    const ruling = entry === null ? null : decisions.of(entry.id);
    if (entry !== null) foldIn(entry.body);
    byId('deciding', HTMLElement).replaceChildren(
      entry === null ? 'No finding is chosen' : 'Your decision on ',
      element('b', '', entry === null ? '' : String(entry.at + 1)),
    );
    for (const button of buttons) {
      button.setAttribute('aria-pressed', String(ruling?.decision === button.dataset.decision));
      button.disabled = entry === null;
    }
    note.disabled = entry === null;
    note.value = ruling?.note ?? drafts.get(entry?.id ?? '') ?? '';
    if (entry !== null && ruling?.decision === 'collation-wrong') unfoldIn(entry.body, 'record-side');
  };
  const decisions = startRulings(data, () => {
    entries.forEach(row);
    show(bench?.chosen() ?? null);
  });
  const set = (decision: Ruling['decision'] | null): void => {
    const entry = bench?.chosen();
    if (entry == null) return;
    drafts.set(entry.id, note.value.trim());
    decisions.set(entry.id, decision, note.value.trim());
    row(entry);
    show(entry);
    bench?.refresh();
  };
  const press = (button: HTMLButtonElement): void => {
    const decision = knownDecision(button.dataset.decision);
    set(button.getAttribute('aria-pressed') === 'true' ? null : decision);
  };

  entries.forEach(row);
  readAhead(entries);
  bench = startBench(entries, ({ id }) => decisions.of(id) !== null, show);
  for (const button of buttons) {
    button.addEventListener('click', () => {
      press(button);
    });
  }
  note.addEventListener('change', () => {
    const entry = bench.chosen();
    if (entry === null) return;
    const decided = decisions.of(entry.id);
    // A reason without a decision waits for one.
    if (decided === null) drafts.set(entry.id, note.value.trim());
    else set(decided.decision);
  });
  note.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return;
    note.blur();
    bench.chosen()?.body.querySelector('h3')?.focus({ preventScroll: true });
  });
  byId('decide', HTMLFormElement).addEventListener('submit', (event) => {
    event.preventDefault();
  });
  const next = (): void => {
    bench.step(1);
  };
  const back = (): void => {
    bench.step(-1);
  };
  const keys = (): void => {
    help.showModal();
  };
  byId('next', HTMLButtonElement).addEventListener('click', next);
  byId('previous', HTMLButtonElement).addEventListener('click', back);
  byId('help', HTMLButtonElement).addEventListener('click', keys);
  heedKeys(
    new Map<string, () => void>([
      ['j', next],
      ['ArrowDown', next],
      ['k', back],
      ['ArrowUp', back],
      ['?', keys],
      [
        '/',
        () => {
          byId('find', HTMLInputElement).focus();
        },
      ],
      [
        'n',
        () => {
          note.focus();
        },
      ],
      ...buttons.map((button): [string, () => void] => [
        button.getAttribute('aria-keyshortcuts') ?? '',
        () => {
          press(button);
        },
      ]),
      ...startPictures(() => bench.chosen()),
    ]),
    () => byId('keys-on', HTMLInputElement).checked,
  );
}

/** Says on paper what is marked on the screen and not in the report yet. */
function mark(body: HTMLElement, words: string | null): void {
  const there = body.querySelector('.marked');
  if (words === null) there?.remove();
  else {
    const line = there ?? element('p', 'marked');
    line.textContent = `Marked on the screen, not verified yet: ${words}.`;
    if (there === null) body.querySelector('.said')?.append(line);
  }
}

/** Adds to the page what needs a script; without it everything can be read, one below the other. */
function start(): void {
  document.documentElement.classList.add('bench');
  foldFilm();
  if (document.getElementById('tools') !== null) {
    work();
    return;
  }
  const follow = (): void => {
    showPart(location.hash.slice(1));
  };
  addEventListener('popstate', follow);
  follow();
}

start();
