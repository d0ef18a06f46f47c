import { create } from 'xmlbuilder2';
import type { XMLBuilder } from 'xmlbuilder2/lib/interfaces.js';
import type { DueIssue } from '../../model/expected-delivery.js';
import type { Profile } from '../../model/profile.js';
import type { DueFile } from './issue-mets.js';
import { add, addIssueFacts, addOriginal, addPagePart, addPresent, MODS, presentWords } from './mods.js';
import type { NamedDelivery, NamedFilm, NamedIssue } from './names.js';

/** The documents of a return with one MODS document per page and edition, one document per film, and a place held for each unmatched frame. */
export function pageModsFiles({ issues, films }: NamedDelivery, profile: Profile): readonly DueFile[] {
  return [...issues.flatMap((named) => editionFiles(named, profile)), ...films.flatMap(filmFiles)];
}

function modsDocument(): XMLBuilder {
  return create({ version: '1.0', encoding: 'UTF-8' }).ele(MODS, 'mods:mods');
}

function written(document: XMLBuilder): string {
  return `${document.end({ prettyPrint: true })}\n`;
}

function addTitle(parent: XMLBuilder, { title }: DueIssue): void {
  // The appendix prints both attributes on titleInfo in its later rows; MODS allows them nowhere else.
  if (title !== null) add(add(parent, 'mods:titleInfo', { type: 'uniform', authority: 'Statens Avissamling' }), 'mods:title', {}, title);
}

function editionFiles({ issue, folder, document, pages, absent }: NamedIssue, profile: Profile): readonly DueFile[] {
  const edition = modsDocument();
  addTitle(edition, issue);
  const host = add(edition, 'mods:relatedItem', { type: 'host' });
  addIssueFacts(edition, host, issue);
  addPresent(edition, presentWords(profile, issue.absentAsWhole));
  return [
    { path: `${folder}/${document}`, text: written(edition) },
    ...issue.pages.map((page, at) => {
      const mods = modsDocument();
      addPagePart(mods, page);
      addPresent(addOriginal(mods, page.reel, page.frame), presentWords(profile, null));
      addTitle(add(mods, 'mods:relatedItem', { type: 'host' }), issue);
      return { path: `${folder}/${pages[at] ?? ''}`, text: written(mods) };
    }),
    ...issue.absent.map((absence, at) => {
      const mods = modsDocument();
      addPagePart(mods, absence);
      const original = add(mods, 'mods:relatedItem', { type: 'original' });
      add(original, 'mods:identifier', { type: 'reel number' }, issue.reel);
      addPresent(original, presentWords(profile, absence.published));
      addTitle(add(mods, 'mods:relatedItem', { type: 'host' }), issue);
      return { path: `${folder}/${absent[at] ?? ''}`, text: written(mods) };
    }),
  ];
}

function filmFiles({ film, folder, document, unmatched }: NamedFilm): readonly DueFile[] {
  const root = create({ version: '1.0', encoding: 'UTF-8' }).ele('reelMetadata');
  add(root, 'batchIdFilmId', {}, film.number);
  return [
    { path: `${folder}/${document ?? ''}`, text: written(root) },
    ...unmatched.map((name, at) => {
      const mods = modsDocument();
      addOriginal(mods, film.number, film.unmatched[at] ?? '');
      return { path: `${folder}/unmatched/${name}`, text: written(mods) };
    }),
  ];
}
