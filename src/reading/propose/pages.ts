import type { Doubt } from '../doubts.js';
import { PAGES_MEANINGS } from '../pages/words.js';
import { PHRASES } from '../phrase-list.js';
import { applyReading } from '../sheet.js';
import { type Ways, wordKey } from '../ways.js';
import { type Asked, asked } from './asked.js';
import { firsts, type Laid, textsOf, where } from './laid.js';

/**
 * What is to be asked of the pages of issues: whether a number alone is a count, what a word says, whether missing pages are among those of the
 * column. `before` are the phrases that are asked about because notes hold them.
 */
export function askedOfPages(film: readonly Laid[], ways: Ways, before: readonly Asked[]): readonly Asked[] {
  const issues = film.filter(({ layout }) => layout.use === 'issues');
  const lone = askedOfLoneNumbers(issues, ways);
  // What follows from a likely answer is asked at the same time.
  const supposed: Ways = {
    ...ways,
    loneNumbers: ways.loneNumbers ?? 'count',
    phrases: new Map([...PHRASES.map(({ key }) => [key, 'fact'] as const), ...ways.phrases]),
  };
  const doubtsBy = (by: Ways): readonly (Doubt & { readonly laid: Laid })[] =>
    issues.flatMap((laid) => applyReading(laid.grid, by).doubts.map((doubt) => ({ ...doubt, laid })));
  const doubts = doubtsBy(ways);
  const words = firsts(
    doubts.filter(({ about }) => about === 'words'),
    ({ of }) => wordKey(of),
  );
  const phrases = firsts(
    doubts.filter(({ about, of }) => about === 'phrases' && !before.some((one) => one.of === of)),
    ({ of }) => of,
  );
  const [spread] = doubts.filter(({ about }) => about === 'spreads');
  // Where nothing is open, what is supposed is what is.
  const settled = lone.length + words.length + phrases.length + before.length === 0;
  const [among] = (settled ? doubts : doubtsBy(supposed)).filter(({ about }) => about === 'pages');
  return [
    ...lone,
    ...words.map(({ of, row, text, laid }) =>
      asked('words', of, `In ${where(laid, row)} the pages are "${text.slice(0, 60)}". What does "${of.slice(0, 40)}" say there?`, {
        choices: PAGES_MEANINGS,
        proposed: null,
        field: 'pages',
      }),
    ),
    ...phrases.map(({ of, key: meaning, row, text, laid }) =>
      asked(
        'phrases',
        of,
        `In ${where(laid, row)} the pages are "${text.slice(0, 60)}". Is that a fact (${PHRASES.find(({ key }) => key === meaning)?.means ?? of}), or a note and no more?`,
        { choices: ['fact', 'note'], proposed: 'fact' },
      ),
    ),
    ...(spread === undefined
      ? []
      : [
          asked(
            'spreads',
            'pages',
            `In ${where(spread.laid, spread.row)} the pages are "${spread.text.slice(0, 60)}". Are two pages written so on one frame, or on a frame each?`,
            { choices: ['one frame', 'a frame each'], proposed: null },
          ),
        ]),
    ...(among === undefined
      ? []
      : [
          asked(
            'pages',
            'pages',
            `In ${where(among.laid, among.row)} the pages are "${among.text.slice(0, 60)}", and pages are said to be missing. Does the column tell what was published, the missing pages among them, or what was filmed?`,
            { choices: ['published', 'filmed'], proposed: null },
          ),
        ]),
  ];
}

function askedOfLoneNumbers(issues: readonly Laid[], ways: Ways): readonly Asked[] {
  if (ways.loneNumbers !== null) return [];
  const cells = issues.flatMap((laid) => textsOf(laid, 'pages').map((one) => ({ ...one, laid })));
  // Alone, or beside words about some of its pages: `4 (p. 3 torn)`.
  const lone = cells.filter(({ text }) =>
    /^(?:[2-9]|[1-9]\d{1,2})(?:$| ?[(;,] ?\p{L}| ?\+| (?:with|mit|avec|plus|and|und|et) )/iu.test(text),
  );
  const [first] = lone;
  if (first === undefined) return [];
  const lists = cells.length - lone.length;
  const number = /^\d+/.exec(first.text)?.[0] ?? '';
  return [
    asked(
      'loneNumbers',
      'pages',
      `In ${where(first.laid, first.row)} the pages are "${first.text}". Are that ${number} pages, 1-${number}, or page ${number} alone?`,
      {
        choices: ['count', 'page'],
        proposed: lone.length > lists ? 'count' : null,
      },
    ),
  ];
}
