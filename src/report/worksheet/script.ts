/**
 * The script of the worksheet, as it stands in the page. It reads the facts of the draw from the page, keeps the answers in the form controls themselves,
 * writes them into a file when asked, and notes them in the browser's own store only so that a closed window loses nothing.
 */
export const SCRIPT = `'use strict';
(() => {
  const facts = JSON.parse(document.getElementById('facts').textContent);
  const main = document.querySelector('main');
  const cards = Array.from(document.querySelectorAll('article'));
  const by = document.getElementById('by');
  const single = document.getElementById('single');
  const progress = document.getElementById('progress');
  const said = document.getElementById('said');
  const store = 'reeltally-worksheet-' + facts.code;
  document.getElementById('controls').hidden = false;

  const groupOf = (card, question) => Array.from(card.querySelectorAll('fieldset')).find((one) => one.dataset.question === question);
  const answerOf = (card, question) => {
    const checked = groupOf(card, question).querySelector('input:checked');
    return checked === null ? null : checked.value;
  };
  const answer = (card, question, value) => {
    for (const input of groupOf(card, question).querySelectorAll('input')) input.checked = input.value === value;
  };
  const noteOf = (card) => card.querySelector('.note input');
  const answersOf = (card) => facts.questions.map((question) => ({ question, answer: answerOf(card, question) }));
  const isOpen = (card) => answersOf(card).some((one) => one.answer === null);
  const rows = () => cards.map((card, at) => ({ draw: facts.units[at].draw, number: facts.units[at].number, id: facts.units[at].id, answers: answersOf(card), note: noteOf(card).value }));
  const saved = () => ({ format: 'reeltally/worksheet/2', by: by.value, rows: rows() });

  const show = () => {
    let open = 0;
    for (const card of cards) {
      const answers = answersOf(card);
      const wrong = answers.some((one) => one.answer === 'no');
      const unanswered = answers.filter((one) => one.answer === null).length;
      if (unanswered > 0) open += 1;
      card.dataset.state = unanswered > 0 ? 'open' : wrong ? 'wrong' : 'done';
      card.querySelector('.state').textContent = unanswered > 0 ? (unanswered === answers.length ? 'not answered yet' : unanswered + ' answers open') : wrong ? 'answered: something is wrong' : 'answered: all is well';
    }
    progress.value = cards.length - open;
    said.textContent = cards.length - open + ' of ' + cards.length + ' answered';
  };
  const keep = () => {
    show();
    try { localStorage.setItem(store, JSON.stringify(saved())); } catch { /* a browser may have no store for files */ }
  };
  /** Puts saved answers back; gives what is wrong with them, or null. */
  const restore = (text) => {
    let from;
    try { from = JSON.parse(text); } catch { return 'This file is not a saved worksheet.'; }
    if (from === null || from.format !== 'reeltally/worksheet/2' || !Array.isArray(from.rows)) return 'This file is not a saved worksheet.';
    if (!from.rows.some((row) => facts.units.some((unit) => unit.draw === row.draw))) return 'This file belongs to another draw.';
    by.value = String(from.by || '');
    for (const row of from.rows) {
      const at = facts.units.findIndex((unit) => unit.draw === row.draw && unit.number === row.number && unit.id === row.id);
      if (at < 0 || !Array.isArray(row.answers)) continue;
      for (const one of row.answers) if (facts.questions.includes(one.question)) answer(cards[at], one.question, one.answer);
      noteOf(cards[at]).value = String(row.note || '');
    }
    return null;
  };

  const current = () => cards.indexOf(document.activeElement === null ? null : document.activeElement.closest('article'));
  const go = (at) => {
    const card = cards[Math.min(cards.length - 1, Math.max(0, at))];
    card.focus({ preventScroll: true });
    card.scrollIntoView({ block: 'start' });
  };
  const allRight = (card) => {
    for (const question of facts.questions) if (answerOf(card, question) === null) answer(card, question, 'yes');
    keep();
    const at = cards.indexOf(card);
    if (at + 1 < cards.length) go(at + 1);
    else card.focus();
  };
  const nextOpen = () => {
    const here = current();
    const order = cards.map((_, step) => (here + 1 + step) % cards.length);
    const found = order.find((at) => isOpen(cards[at]));
    if (found !== undefined) go(found);
  };
  const save = () => {
    const link = document.createElement('a');
    link.href = URL.createObjectURL(new Blob([JSON.stringify(saved(), null, 2) + String.fromCharCode(10)], { type: 'application/json' }));
    link.download = facts.file;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
    const open = cards.filter(isOpen).length;
    said.textContent = 'Saved as ' + facts.file + (open === 0 ? ': all answered' : ': ' + open + ' still open');
  };

  document.addEventListener('keydown', (event) => {
    if (!single.checked || event.ctrlKey || event.altKey || event.metaKey || event.defaultPrevented) return;
    if (event.target instanceof HTMLInputElement && event.target.type === 'text') {
      if (event.key === 'Escape' && main.contains(event.target)) event.target.closest('article').focus();
      return;
    }
    const at = current();
    const key = event.key.toLowerCase();
    const digit = /^[1-9]$/.test(key) ? Number(key) : 0;
    if (key === 'n') go(at + 1);
    else if (key === 'p') go(at - 1);
    else if (key === 'u') nextOpen();
    else if (key === 's') save();
    else if (at < 0) return;
    else if (key === 'y') allRight(cards[at]);
    else if (key === 'm') noteOf(cards[at]).focus();
    else if (key === '+' || key === '-') enlarge(cards[at], key === '+' ? 1.5 : 1 / 1.5);
    else if (key === 't') turn(cards[at]);
    else if (digit > 0 && digit <= facts.questions.length) {
      const question = facts.questions[digit - 1];
      answer(cards[at], question, answerOf(cards[at], question) === 'no' ? 'yes' : 'no');
      keep();
    } else return;
    event.preventDefault();
  });
  function enlarge(card, by) {
    for (const image of card.querySelectorAll('img')) {
      const size = Math.min(6, Math.max(1, (Number(image.dataset.size) || 1) * by));
      image.dataset.size = String(size);
      image.style.maxWidth = image.style.maxHeight = size === 1 ? '' : 'none';
      image.style.height = size === 1 ? '' : String(Math.round(80 * size)) + 'vh';
      image.style.width = size === 1 ? '' : 'auto';
      makeRoom(image);
    }
  }
  // a turned picture keeps the box of the upright one: it is made no higher than the sheet is wide, and margins give it the room that it takes
  function makeRoom(image) {
    const lying = (Number(image.dataset.turned) || 0) % 2 === 1;
    if ((Number(image.dataset.size) || 1) === 1) image.style.maxHeight = lying ? 'min(84vh, ' + String(image.parentElement.clientWidth) + 'px)' : '';
    const more = (image.offsetWidth - image.offsetHeight) / 2;
    image.style.margin = lying ? String(more) + 'px ' + String(-more) + 'px' : '';
  }
  const sizes = new ResizeObserver((entries) => { for (const { target } of entries) makeRoom(target.matches('img') ? target : target.querySelector('img')); });
  function turn(card) {
    for (const image of card.querySelectorAll('img')) {
      const quarter = ((Number(image.dataset.turned) || 0) + 1) % 4;
      image.dataset.turned = String(quarter);
      image.style.rotate = quarter === 0 ? '' : String(quarter * 90) + 'deg';
      makeRoom(image);
      sizes.observe(image);
      sizes.observe(image.parentElement);
    }
  }
  document.addEventListener('change', (event) => {
    if (event.target.id === 'earlier') {
      const file = event.target.files[0];
      if (file) file.text().then((text) => { const wrong = restore(text); keep(); if (wrong !== null) said.textContent = wrong; });
    } else keep();
  });
  for (const card of cards) card.querySelector('button').addEventListener('click', () => allRight(card));
  document.getElementById('save').addEventListener('click', save);
  for (const image of document.querySelectorAll('img')) {
    const unable = () => { image.hidden = true; image.nextElementSibling.hidden = false; };
    if (image.complete && image.naturalWidth === 0 && image.loading !== 'lazy') unable();
    image.addEventListener('error', unable);
  }
  try { const before = localStorage.getItem(store); if (before !== null) restore(before); } catch { /* as above */ }
  show();
})();
`;
