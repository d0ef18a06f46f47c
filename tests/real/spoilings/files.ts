import { copyFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { removeFile } from '../copy.js';
import { middle, ofPage, pictureOf, type Spoiling, victim } from './scene.js';

/** A picture is named and not there. */
export const fileOutOfTheFolder: Spoiling = {
  name: 'file out of the folder',
  spoil: (scene) => {
    const issue = victim(scene);
    const [page] = middle(issue);
    const { path } = pictureOf(page);
    removeFile(scene.folder, path);
    return ofPage(scene, issue, page, ['file-missing'], [basename(path)]);
  },
};

/** One picture was copied over another: every document is right, and one page is shown twice. */
export const fileOverAnother: Spoiling = {
  name: 'file copied over another',
  spoil: (scene) => {
    const issue = victim(scene);
    const [page, next] = middle(issue);
    const [over, from] = [pictureOf(page).path, pictureOf(next).path];
    copyFileSync(join(scene.folder, from), join(scene.folder, over));
    return ofPage(scene, issue, page, ['checksum-differs'], [basename(over), basename(from)]);
  },
};
