import { UserMistake } from '../read/mistake.js';

/** The forms asked for, `html,csv` or several words, in the order of the list; all of them without a wish. `what` begins the sentence about an unknown one. Throws UserMistake. */
export function formsFor<Form extends string>(
  forms: readonly Form[],
  wishes: readonly string[] | undefined,
  what: string,
): readonly Form[] {
  if (wishes === undefined) return forms;
  const names = wishes.flatMap((wish) => wish.split(',')).filter((name) => name !== '');
  const unknown = names.find((name) => !forms.some((form) => form === name));
  if (unknown !== undefined || names.length === 0)
    throw new UserMistake(`--format: ${what} written as ${forms.join(', ')}${unknown === undefined ? '' : `, and not as ${unknown}`}.`);
  return forms.filter((form) => names.includes(form));
}

/** The one of `choices` that was typed for an option. Throws UserMistake. */
export function oneOf<Choice extends string>(option: string, text: string, choices: readonly Choice[]): Choice {
  const choice = choices.find((one) => one === text);
  if (choice === undefined) throw new UserMistake(`${option}: ${text} is none of ${choices.join(', ')}.`);
  return choice;
}

/** Whether small pictures of the pages are made, for a browser that cannot show the files themselves; they are, where nothing else was said. */
export function picturesWished({ pictures = 'folder' }: { readonly pictures?: string }): boolean {
  return oneOf('--pictures', pictures, ['folder', 'none']) === 'folder';
}
