/** Shows the findings that fit every choice, and says how many. */
export function filters(): void {
  const entries = [...document.querySelectorAll<HTMLElement>('.finding')];
  const severities = [...document.querySelectorAll<HTMLInputElement>('input[data-severity]')];
  const choices = [...document.querySelectorAll<HTMLSelectElement>('select[data-filter]')];
  const search = document.getElementById('search');
  const shown = document.getElementById('shown');
  // What the decision form says is not part of a finding.
  const textOf = (entry: HTMLElement): string =>
    [...entry.querySelectorAll('summary, .body > :not(fieldset)')].map((part) => part.textContent).join(' ');
  const texts = new Map(entries.map((entry) => [entry, textOf(entry).toLowerCase()]));

  const apply = (): void => {
    const words =
      search instanceof HTMLInputElement
        ? search.value
            .toLowerCase()
            .split(/\s+/)
            .filter((word) => word !== '')
        : [];
    const wanted = new Set(severities.filter((box) => box.checked).map((box) => box.dataset.severity));
    let count = 0;
    for (const entry of entries) {
      const fits =
        (severities.length === 0 || wanted.has(entry.dataset.severity)) &&
        choices.every((choice) => choice.value === '*' || choice.value === entry.dataset[choice.dataset.filter ?? '']) &&
        words.every((word) => texts.get(entry)?.includes(word));
      entry.hidden = !fits;
      if (fits) count++;
    }
    if (shown !== null) {
      shown.textContent =
        count === entries.length ? `All ${String(count)} findings shown.` : `${String(count)} of ${String(entries.length)} findings shown.`;
    }
  };

  const reset = (): void => {
    for (const box of severities) box.checked = true;
    for (const choice of choices) choice.value = '*';
    if (search instanceof HTMLInputElement) search.value = '';
    apply();
  };

  for (const control of [...severities, ...choices]) control.addEventListener('change', apply);
  search?.addEventListener('input', apply);
  document.getElementById('reset')?.addEventListener('click', reset);
  // A browser may have kept choices over a reload.
  apply();
}
