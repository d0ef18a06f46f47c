/** A new element with a class and a text. */
export function element<K extends keyof HTMLElementTagNameMap>(name: K, css: string, text = ''): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  made.className = css;
  made.textContent = text;
  return made;
}

/** The element of the page with an id; one that is not there, or of another kind, is a fault of the page. */
export function byId<T extends HTMLElement>(id: string, kind: new () => T): T {
  const found = document.getElementById(id);
  if (!(found instanceof kind)) throw new Error(`The page has no ${id}.`);
  return found;
}
