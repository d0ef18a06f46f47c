import type { Ruling } from '../../../model/rulings.js';
import type { Conflict } from './book.js';
import { byId, element } from './elements.js';

/** Decisions as the page says them. */
export const WORDS: Readonly<Record<Ruling['decision'], string>> = {
  'vendor-corrects': 'vendor corrects',
  'collation-wrong': 'our record was wrong',
  'accept-as-is': 'accept as it is',
};

/** A decision with who made it and why. */
export function inWords({ decision, note, by, on }: Ruling): string {
  const who = by === '' ? 'not saved yet' : `${by}, ${on}`;
  return `${WORDS[decision]} (${who})${note === '' ? '' : `: ${note}`}`;
}

/** One conflict with a choice for each side; the page's own is chosen until somebody says otherwise. */
function choiceOf({ finding, mine, theirs }: Conflict, at: number, title: (finding: string) => string): HTMLFieldSetElement {
  const field = element('fieldset', 'conflict');
  const options = (
    [
      ['mine', 'Keep', mine],
      ['theirs', 'Take', theirs],
    ] as const
  ).map(([value, verb, ruling]) => {
    const label = element('label', '');
    const radio = element('input', '');
    radio.type = 'radio';
    radio.name = `conflict-${String(at)}`;
    radio.value = value;
    radio.checked = value === 'mine';
    label.append(radio, ` ${verb}: ${inWords(ruling)}`);
    return label;
  });
  field.append(element('legend', '', title(finding)), ...options);
  return field;
}

/** What is asked before rulings from elsewhere are taken over. */
export interface Offer {
  readonly says: string;
  readonly errors: readonly string[];
  readonly fitting: readonly Ruling[];
  readonly conflicts: readonly Conflict[];
}

/** Shows every error and every conflict at once, and hands over what is to be taken; nothing where the reader leaves it. */
export function ask(
  { says, errors, fitting, conflicts }: Offer,
  title: (finding: string) => string,
  onTake: (rulings: readonly Ruling[]) => void,
): void {
  const dialog = byId('loading', HTMLDialogElement);
  byId('loading-says', HTMLElement).textContent = says;
  byId('loading-errors', HTMLElement).replaceChildren(...errors.map((error) => element('li', '', error)));
  const fields = conflicts.map((conflict, at) => choiceOf(conflict, at, title));
  byId('conflicts', HTMLElement).replaceChildren(...fields);
  const nothing = fitting.length === 0 && conflicts.length === 0;
  byId('loading-take', HTMLElement).hidden = nothing;
  byId('loading-leave', HTMLElement).textContent = nothing ? 'Close' : 'Leave as it is';
  dialog.returnValue = 'leave';
  dialog.onclose = () => {
    if (dialog.returnValue !== 'take') return;
    const chosen = conflicts.filter((_, at) => fields[at]?.querySelector<HTMLInputElement>('input[value="theirs"]')?.checked === true);
    onTake([...fitting, ...chosen.map(({ theirs }) => theirs)]);
  };
  dialog.showModal();
}
