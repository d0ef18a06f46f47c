/** The foldable part of each finding. */
function folds(): readonly HTMLDetailsElement[] {
  return [...document.querySelectorAll<HTMLDetailsElement>('.finding > details')];
}

/** Buttons that fold and unfold all findings. */
export function foldButtons(): void {
  const set = (open: boolean) => () => {
    for (const fold of folds()) fold.open = open;
  };
  document.getElementById('fold')?.addEventListener('click', set(false));
  document.getElementById('unfold')?.addEventListener('click', set(true));
}

/** On paper every finding is open; afterwards as it was. */
export function openForPrint(): void {
  let closed: readonly HTMLDetailsElement[] = [];
  addEventListener('beforeprint', () => {
    closed = folds().filter((fold) => !fold.open);
    for (const fold of closed) fold.open = true;
  });
  addEventListener('afterprint', () => {
    for (const fold of closed) fold.open = false;
    closed = [];
  });
}

/** Opens the finding that the address names, shows it even where a filter hides it, and goes there. */
export function openTarget(): void {
  const go = (): void => {
    const target = document.getElementById(location.hash.slice(1));
    if (target === null || !target.classList.contains('finding')) return;
    target.hidden = false;
    const fold = target.querySelector('details');
    if (fold !== null) fold.open = true;
    target.scrollIntoView();
  };
  addEventListener('hashchange', go);
  go();
}
