import { copyFileSync, mkdirSync, renameSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { editFile } from '../copy.js';
import { filesBelow } from '../facts.js';
import { edited, element, prefixed } from '../xml-text.js';
import { renumberEdition } from './issue-facts.js';
import { ofIssue, type Spoiling, stemOf, victim } from './scene.js';

/** The issue came a second time, in a folder of its own; where editions are written, as the second of the day. */
export const issueTwice: Spoiling = {
  name: 'issue twice',
  spoil: (scene) => {
    const issue = victim(scene);
    const from = dirname(issue.documents[0] ?? '');
    const stem = stemOf(issue.documents[0] ?? '');
    const second = issue.edition === null ? stem.replace(/(?:_1-METS|_mets)$/, '_2') : stem.replace(/1$/, '2');
    // a lone document lies in the batch itself, its second copy in a folder of it
    const to = from === '.' ? second : join(dirname(from), second);
    const files = from === '.' ? filesBelow(scene.folder) : filesBelow(join(scene.folder, from)).map((path) => join(from, path));
    for (const path of files) {
      const copied = join(scene.folder, to, from === '.' ? path : path.slice(from.length + 1));
      mkdirSync(dirname(copied), { recursive: true });
      copyFileSync(join(scene.folder, path), copied);
    }
    if (issue.edition !== null) {
      for (const path of issue.documents) {
        const copied = join(to, basename(path).replace(stem, second));
        renameSync(join(scene.folder, to, basename(path)), join(scene.folder, copied));
        renumberEdition(scene.folder, [copied], 2);
      }
      for (const path of scene.facts.manifests)
        editFile(scene.folder, path, (text) => {
          const entry = element(text, 'issue', { issueDate: issue.date });
          return edited(text, entry, (line) => `${line}\n${line.replace('editionOrder="1"', 'editionOrder="2"').replaceAll(stem, second)}`);
        });
    }
    return ofIssue(scene, issue, ['issue-delivered-twice'], []);
  },
};

/** The document of the issue ends in its middle. */
export const cutOff: Spoiling = {
  name: 'document cut off',
  spoil: (scene) => {
    const document = victim(scene).documents.at(-1) ?? '';
    editFile(scene.folder, document, (text) => text.slice(0, text.length >> 1));
    return { must: [{ codes: ['document-unreadable'], names: [basename(document)] }] };
  },
};

/** A target of the scanner, which is not on the film, is given the number of a frame. */
export const technicalTargetNumbered: Spoiling = {
  name: 'technical target with a frame number',
  spoil: (scene) => {
    const reel = scene.facts.reels.find(({ targets }) => targets.some(({ frame }) => frame === null));
    const target = reel?.targets.find(({ frame }) => frame === null);
    if (reel === undefined || target === undefined) return null;
    const numbers = [
      ['reel number', reel.number],
      ['reel sequence number', '3'],
    ];
    for (const path of reel.documents)
      editFile(scene.folder, path, (text) =>
        edited(text, element(text, 'dmdSec', { ID: target.section }), (part) => {
          const title = element(part, 'titleInfo', {});
          const identifiers = numbers.map(([type, number]) => prefixed(part, title, 'identifier', `type="${type ?? ''}"`, number ?? ''));
          const original = prefixed(part, title, 'relatedItem', 'type="original"', identifiers.join(''));
          return part.slice(0, title.to) + original + part.slice(title.to);
        }),
      );
    return { must: [{ codes: ['frame-number-wrong', 'documents-disagree', 'non-page-delivered', 'not-ordered'], names: ['3'] }] };
  },
};
