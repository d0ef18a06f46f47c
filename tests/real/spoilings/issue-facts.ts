import { readFileSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { documentsOf, editFile, renameAll } from '../copy.js';
import { edited, element, elementsWith, withAttribute, withContent } from '../xml-text.js';
import { compact, ofIssue, type Spoiling, victim } from './scene.js';

/** A day as some programmes write it: 07.05.1884. */
export const dotted = (date: string): string => date.split('-').reverse().join('.');

/** The day with another last digit of the year, as a slip of the hand makes it. */
function otherYear(date: string): string {
  return `${date.slice(0, 3)}${date[3] === '9' ? '8' : '9'}${date.slice(4)}`;
}

/** Writes another text for one wherever it stands in METS documents, manifests and names. */
function replaceEverywhere(folder: string, pairs: readonly (readonly [string, string])[]): void {
  for (const path of documentsOf(folder)) {
    const before = readFileSync(join(folder, path), 'utf8');
    const after = pairs.reduce((text, [from, to]) => text.replaceAll(from, to), before);
    if (after !== before) writeFileSync(join(folder, path), after);
  }
  for (const [from, to] of pairs) renameAll(folder, from, to);
}

/** The issue has another date in every place where it is written. */
export const date: Spoiling = {
  name: 'date',
  spoil: (scene) => {
    const issue = victim(scene);
    const wrong = otherYear(issue.date);
    replaceEverywhere(
      scene.folder,
      [(day: string) => day, dotted, compact].map((form) => [form(issue.date), form(wrong)] as const),
    );
    return ofIssue(scene, issue, ['date-differs'], [issue.date, [wrong, dotted(wrong)]]);
  },
};

/** Gives documents of an issue another number of the edition, where their section states one. */
export function renumberEdition(folder: string, documents: readonly string[], to: number): void {
  for (const path of documents)
    editFile(folder, path, (text) =>
      edited(text, element(text, 'detail', { type: 'edition' }), (part) => withContent(part, element(part, 'number', {}), String(to))),
    );
}

/** The issue is another edition in every place where that is written. */
export const edition: Spoiling = {
  name: 'edition',
  spoil: (scene) => {
    const issue = victim(scene);
    if (issue.edition !== null) {
      renumberEdition(scene.folder, issue.documents, 2);
      for (const path of scene.facts.manifests)
        editFile(scene.folder, path, (text) => withAttribute(text, element(text, 'issue', { issueDate: issue.date }), 'editionOrder', '2'));
      replaceEverywhere(scene.folder, [[`${compact(issue.date)}01`, `${compact(issue.date)}02`]]);
    } else if (scene.editionInFolder) {
      const folder = basename(dirname(issue.documents[0] ?? ''));
      replaceEverywhere(scene.folder, [[folder, `${folder.slice(0, -1)}2`]]);
    } else return null;
    return ofIssue(scene, issue, ['edition-differs'], ['1', '2']);
  },
};

/** All pages of the issue carry the number of another reel. */
export const wrongReel: Spoiling = {
  name: 'wrong reel number',
  spoil: (scene) => {
    const issue = victim(scene);
    const { reel } = issue;
    if (reel === null) return null;
    const wrong = `${reel.slice(0, -1)}${reel.endsWith('7') ? '1' : '7'}`;
    for (const path of issue.documents)
      editFile(scene.folder, path, (text) =>
        elementsWith(text, 'identifier', { type: 'reel number' })
          .reverse()
          .reduce((after, span) => withContent(after, span, wrong), text),
      );
    const { must } = ofIssue(scene, issue, ['reel-number-wrong'], [wrong]);
    // a whole reel may be told without the issue
    return { must: must.map(({ codes, at, names }) => ({ codes, names, ...(at === undefined ? {} : { at }) })) };
  },
};
