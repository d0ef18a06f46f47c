import { decisions } from './decisions.js';
import { filters } from './filters.js';
import { foldButtons, openForPrint, openTarget } from './folding.js';

/** Adds to the page what needs a script; without it everything can be read. */
function start(): void {
  const tools = document.getElementById('tools');
  openForPrint();
  openTarget();
  if (tools === null) return;
  tools.hidden = false;
  foldButtons();
  filters();
  decisions();
}

start();
