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
