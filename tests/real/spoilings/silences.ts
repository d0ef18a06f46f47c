import { copyFileSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { editFile, restateDigests } from '../copy.js';
import { edited, element, elements, elementsWith, withContent, without } from '../xml-text.js';
import { dotted } from './issue-facts.js';
import { divisionOf, labelledIn } from './pages.js';
import { middle, ofIssue, ofPage, pictureOf, type Spoiling, victim } from './scene.js';

/** A page has its section and its files, and no division gives it a place. */
const pageNotPlaced: Spoiling = {
  name: 'page described and not placed',
  spoil: (scene) => {
    const issue = victim(scene);
    const [page] = middle(issue);
    if (page.section === null) return null;
    for (const path of issue.documents) editFile(scene.folder, path, (text) => without(text, divisionOf(text, page)));
    const may = [{ codes: ['file-not-listed'], names: [basename(pictureOf(page).path)] }];
    return { ...ofPage(scene, issue, page, ['page-not-delivered']), may };
  },
};

/** A page has its section and its place, and points to no file. */
const pageWithoutFiles: Spoiling = {
  name: 'page without files',
  spoil: (scene) => {
    const issue = victim(scene);
    const [page] = middle(issue);
    if (page.section === null) return null;
    for (const path of issue.documents)
      editFile(scene.folder, path, (text) =>
        edited(text, divisionOf(text, page), (part) => elements(part, 'fptr').reverse().reduce(without, part)),
      );
    const may = [{ codes: ['file-not-listed'], names: [basename(pictureOf(page).path)] }];
    return { ...ofPage(scene, issue, page, ['file-missing']), may };
  },
};

/** Two pages name the same picture. */
const twoPagesOneFile: Spoiling = {
  name: 'two pages name one picture',
  spoil: (scene) => {
    const issue = victim(scene);
    const [page, next] = middle(issue);
    const [named, other] = [pictureOf(page), pictureOf(next)];
    for (const path of issue.documents)
      editFile(scene.folder, path, (text) =>
        edited(text, element(text, 'file', { ID: other.id }), (part) => part.replace(basename(other.path), basename(named.path))),
      );
    return {
      ...ofPage(scene, issue, page, ['same-image-twice'], [basename(named.path)]),
      // the picture that nobody names any more, and the digest that was stated for it
      may: [
        { codes: ['file-not-listed'], names: [basename(other.path)] },
        { codes: ['checksum-differs'], names: [basename(named.path)] },
      ],
    };
  },
};

/** A picture lies there that no document names. */
const pictureNotNamed: Spoiling = {
  name: 'picture that no document names',
  spoil: (scene) => {
    const place = dirname(pictureOf(middle(victim(scene))[0]).path);
    writeFileSync(join(scene.folder, place, '9990.jp2'), 'a picture that nobody names\n');
    return { must: [{ codes: ['file-not-listed'], names: ['9990.jp2'] }] };
  },
};

/** Two sections have one ID and say other things. */
const sectionTwice: Spoiling = {
  name: 'two sections of one ID',
  spoil: (scene) => {
    const issue = victim(scene);
    const [page] = middle(issue);
    const { section } = page;
    if (section === null) return null;
    for (const path of issue.documents)
      editFile(scene.folder, path, (text) => edited(text, element(text, 'dmdSec', { ID: section }), (part) => part + labelledIn(part)));
    return { must: [{ codes: ['documents-disagree'], names: [section] }] };
  },
};

/** The document as the vendor wrote it says another date than the one that was checked. */
const twinSaysOtherwise: Spoiling = {
  name: 'plain copy with another date',
  spoil: (scene) => {
    const issue = victim(scene);
    const [plain, checked] = issue.documents;
    if (plain === undefined || checked === undefined) return null;
    editFile(scene.folder, plain, (text) => withContent(text, element(text, 'dateIssued', {}), '1871-02-03'));
    return { must: [{ codes: ['documents-disagree'], names: ['1871-02-03'] }] };
  },
};

/** The date is wrong in the section of the issue and right in every other place. */
const dateInSectionAlone: Spoiling = {
  name: 'date wrong in its section alone',
  spoil: (scene) => {
    const issue = victim(scene);
    const wrong = '1871-02-03';
    const written = issue.date === issue.dateWritten ? wrong : dotted(wrong);
    for (const path of issue.documents)
      editFile(scene.folder, path, (text) =>
        elementsWith(text, 'dateIssued', {})
          .reverse()
          .reduce((after, span) => withContent(after, span, written), text),
      );
    return ofIssue(scene, issue, ['date-differs'], [[wrong, written]]);
  },
};

/** All files of a page were copied over those of another before the digests were taken. */
const copiedBeforeDigests: Spoiling = {
  name: 'page copied over another before digests',
  spoil: (scene) => {
    const issue = victim(scene);
    const [page, next] = middle(issue);
    for (const { path, use } of page.files) {
      const from = next.files.find((file) => file.use === use);
      if (from !== undefined) copyFileSync(join(scene.folder, from.path), join(scene.folder, path));
    }
    for (const path of issue.documents) restateDigests(scene.folder, path);
    return ofPage(scene, issue, page, ['same-image-twice'], []);
  },
};

/** The pictures of two pages have each other's name; every document is right. */
const picturesExchanged: Spoiling = {
  name: 'pictures of two pages exchanged',
  spoil: (scene) => {
    const issue = victim(scene);
    const [page, next] = middle(issue);
    const [one, other] = [pictureOf(page).path, pictureOf(next).path];
    const kept = readFileSync(join(scene.folder, one));
    renameSync(join(scene.folder, other), join(scene.folder, one));
    writeFileSync(join(scene.folder, other), kept);
    return ofPage(scene, issue, page, ['checksum-differs'], [basename(one), basename(other)]);
  },
};

/** The reel document is labelled with the number of another reel; its targets and the manifest say the right one. */
const reelDocumentLabel: Spoiling = {
  name: 'reel document with another label',
  spoil: (scene) => {
    const [reel] = scene.facts.reels;
    if (reel === undefined) return null;
    const wrong = `${reel.number.slice(0, -2)}99`;
    for (const path of reel.documents) editFile(scene.folder, path, (text) => text.replace(`LABEL="${reel.number}"`, `LABEL="${wrong}"`));
    return { must: [{ codes: ['documents-disagree'], names: [wrong] }] };
  },
};

/** What is easily passed over in silence, or said twice. */
export const SILENCES: readonly Spoiling[] = [
  pageNotPlaced,
  pageWithoutFiles,
  twoPagesOneFile,
  pictureNotNamed,
  sectionTwice,
  twinSaysOtherwise,
  dateInSectionAlone,
  copiedBeforeDigests,
  picturesExchanged,
  reelDocumentLabel,
];
