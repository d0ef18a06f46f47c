const AWAY = 'away';

/** True while the findings are shown. */
export function areFindingsShown(): boolean {
  return document.querySelector(`.workbench:not(.${AWAY})`) !== null;
}

/** Shows one part of the page at a time: the findings with verdict and film, or the part that an anchor lies in. Returns whether it is the findings. */
export function showPart(anchor: string): boolean {
  const sections = [...document.querySelectorAll<HTMLElement>('main > section')];
  const target = anchor === '' ? null : document.getElementById(anchor);
  const own = target?.closest<HTMLElement>('main > section') ?? null;
  const work = own === null || own.matches('.top, .overview, .workbench');
  for (const section of sections) section.classList.toggle(AWAY, work ? !section.matches('.top, .overview, .workbench') : section !== own);
  // Where there is no finding its section is one like the others.
  if (work) document.getElementById('findings')?.closest('section')?.classList.remove(AWAY);
  const head = own === null || own.classList.contains('workbench') ? 'findings' : own.getAttribute('aria-labelledby');
  for (const link of document.querySelectorAll<HTMLAnchorElement>('header nav a')) {
    if (link.hash === `#${work ? 'findings' : (head ?? '')}`) link.setAttribute('aria-current', 'page');
    else link.removeAttribute('aria-current');
  }
  // First the page as it is now: whoever asks for the place of what was put away a moment ago has it drawn as if it still were, and Chromium remarks on that.
  document.body.getBoundingClientRect();
  if (!work) target?.scrollIntoView();
  return work;
}
