import { element } from './elements.js';

/** Makes a button of the words of a head, which tells and sets whether what follows the head is unfolded. A button does it and no `details`: Chromium looks at the whole page for each of those that it draws anew, 20 ms for a finding and 30 ms for the film of a large return. */
function foldable(head: Element, set: (open: boolean) => void): void {
  const button = element('button', 'unfold');
  button.type = 'button';
  button.append(...head.childNodes);
  button.setAttribute('aria-expanded', 'false');
  button.addEventListener('click', () => {
    const open = button.getAttribute('aria-expanded') === 'false';
    button.setAttribute('aria-expanded', String(open));
    set(open);
  });
  head.append(button);
}

/** Folds what a finding has to unfold. */
export function foldIn(body: HTMLElement): void {
  for (const head of body.querySelectorAll('.fold > h4')) {
    const inside = head.nextElementSibling;
    if (head.firstElementChild !== null || !(inside instanceof HTMLElement)) continue;
    inside.hidden = true;
    foldable(head, (open) => {
      inside.hidden = !open;
    });
  }
}

/** Unfolds one part of a finding, if it is folded. */
export function unfoldIn(body: HTMLElement, kind: string): void {
  body.querySelector<HTMLButtonElement>(`.${kind} > h4 > [aria-expanded="false"]`)?.click();
}

/** Lets the issues of the film be unfolded; the style sheet folds them. */
export function foldFilm(): void {
  for (const head of document.querySelectorAll('.group > .issue')) {
    foldable(head, (open) => head.parentElement?.classList.toggle('open', open));
  }
}
