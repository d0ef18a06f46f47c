import type { Ruling, Rulings } from '../../../model/rulings.js';
import type { PageData } from '../page-data.js';
import { forgetKept, keep, kept } from './keeping.js';

const DECISIONS: readonly Ruling['decision'][] = ['vendor-corrects', 'collation-wrong', 'accept-as-is'];

/** The data that stand in the page. */
function pageData(): PageData {
  return JSON.parse(document.getElementById('data')?.textContent ?? '') as PageData;
}

const known = (text: string): Ruling['decision'] | null => DECISIONS.find((decision) => decision === text) ?? null;

/** The decisions that the result already holds. */
function decidedBefore(data: PageData): Map<string, Ruling> {
  const rulings = new Map<string, Ruling>();
  for (const { id, ruling } of data.findings) {
    const decision = known(ruling?.decision ?? '');
    if (ruling === null || decision === null) continue;
    // A result may hold a day in other words; a file of rulings may not.
    const on = /^\d{4}-\d{2}-\d{2}$/.test(ruling.on) ? ruling.on : '';
    rulings.set(id, { finding: id, decision, note: ruling.note.slice(0, 10000), by: ruling.by.slice(0, 1000), on });
  }
  return rulings;
}

/** Hands a text to the browser as a file to be stored. */
function download(name: string, text: string): void {
  const link = document.createElement('a');
  const address = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  link.href = address;
  link.download = name;
  link.click();
  URL.revokeObjectURL(address);
}

/** Today where the reader is, `YYYY-MM-DD`. */
function today(): string {
  const now = new Date();
  return [
    String(now.getFullYear()).padStart(4, '0'),
    String(now.getMonth() + 1).padStart(2, '0'),
    String(now.getDate()).padStart(2, '0'),
  ].join('-');
}

/** Lets the reader decide about findings and save that as a file of rulings. Kept in memory, and in the browser's storage where that is allowed. */
export function decisions(): void {
  const data = pageData();
  const key = `reeltally ${data.batch} ${String(data.delivery)} ${data.at}`;
  const by = document.getElementById('decider');
  const on = document.getElementById('decided');
  const saved = document.getElementById('saved');
  const saveButton = document.getElementById('save');
  if (!(by instanceof HTMLInputElement) || !(on instanceof HTMLInputElement) || saved === null || saveButton === null) return;

  const before = decidedBefore(data);
  let rulings = new Map(before);
  /** Findings decided here and not saved yet. */
  let open = new Set<string>();
  on.value = today();

  const tell = (): void => {
    saved.textContent = `${String(rulings.size)} of ${String(data.findings.length)} findings decided${open.size === 0 ? '.' : `, ${String(open.size)} not saved yet.`}`;
  };
  const forms = [...document.querySelectorAll<HTMLFieldSetElement>('fieldset.ruling')];
  const idOf = (form: HTMLFieldSetElement): string => data.findings[Number(form.dataset.at)]?.id ?? '';
  const noteOf = (form: HTMLFieldSetElement): HTMLTextAreaElement | null => form.querySelector('textarea');

  const show = (form: HTMLFieldSetElement): void => {
    const ruling = rulings.get(idOf(form));
    for (const radio of form.querySelectorAll('input')) radio.checked = radio.value === (ruling?.decision ?? '');
    const note = noteOf(form);
    if (note !== null) note.value = ruling?.note ?? '';
  };

  const take = (form: HTMLFieldSetElement): void => {
    const id = idOf(form);
    const decision = known(form.querySelector<HTMLInputElement>('input:checked')?.value ?? '');
    if (decision === null) rulings.delete(id);
    // Name and day are filled in when it is saved: most people write their name last.
    else rulings.set(id, { finding: id, decision, note: noteOf(form)?.value.trim() ?? '', by: '', on: '' });
    open.add(id);
    keep(key, { open: [...open], rulings: [...rulings.values()] });
    tell();
  };

  const save = (): void => {
    if (by.value.trim() === '' || on.value === '') {
      const empty = by.value.trim() === '' ? by : on;
      saved.textContent = empty === by ? 'Write your name first: a decision without one is worth little later on.' : 'Write the day first.';
      empty.focus();
      return;
    }
    for (const [id, ruling] of rulings) {
      if (open.has(id)) rulings.set(id, { ...ruling, by: by.value.trim(), on: on.value });
    }
    const file: Rulings = { format: 'reeltally/rulings/1', rulings: data.findings.flatMap(({ id }) => rulings.get(id) ?? []) };
    download('rulings.json', `${JSON.stringify(file, null, 2)}\n`);
    open = new Set();
    keep(key, { open: [], rulings: [...rulings.values()] });
    saved.textContent = `${String(file.rulings.length)} decisions written to rulings.json. Verify again with --rulings rulings.json for the new verdict.`;
  };

  const earlier = kept(key);
  if (earlier !== null) {
    rulings = new Map(earlier.rulings.map((ruling) => [ruling.finding, ruling]));
    open = new Set(earlier.open);
  }
  for (const form of forms) {
    form.hidden = false;
    show(form);
    form.addEventListener('change', () => {
      take(form);
    });
  }
  saveButton.addEventListener('click', save);
  document.getElementById('forget')?.addEventListener('click', () => {
    rulings = new Map(before);
    open = new Set();
    forgetKept(key);
    forms.forEach(show);
    tell();
  });
  addEventListener('beforeunload', (event) => {
    if (open.size > 0) event.preventDefault();
  });
  tell();
}
