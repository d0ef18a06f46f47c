import type { DueIssue, DueLine, ExpectedDelivery } from '../../model/expected-delivery.js';
import type { LayoutName, Profile } from '../../model/profile.js';
import { type DueFile, issueMetsFiles } from './issue-mets.js';
import { type NamedDelivery, namedDelivery } from './names.js';
import { pageModsFiles } from './page-mods.js';

export type { DueFile } from './issue-mets.js';

/** The XML documents of the return that would be right; no images. */
export function expectedFiles(delivery: ExpectedDelivery, profile: Profile, batch: string): readonly DueFile[] {
  const named = namedDelivery(delivery, profile.layout);
  return profile.layout === 'issue-mets' ? issueMetsFiles(named, profile, batch) : pageModsFiles(named, profile);
}

/** What is to come, a line for each document or page; folders and documents only where a layout names them. */
export function dueLines(delivery: ExpectedDelivery, layout: LayoutName | null): readonly DueLine[] {
  const named = namedDelivery(delivery, layout ?? 'issue-mets');
  const lines = [...issueLines(named, layout), ...filmLines(named, layout)];
  return layout === null ? lines.map((line) => ({ ...line, folder: '', document: '' })) : lines;
}

const none = { frame: '', section: '', page: '', order: '' };

function issueLines({ issues }: NamedDelivery, layout: LayoutName | null): readonly DueLine[] {
  return issues.flatMap(({ issue, folder, document, pages, absent }): readonly DueLine[] => {
    const facts = { folder, document, reel: issue.reel, title: issue.title ?? '', date: issue.date ?? '', edition: String(issue.edition) };
    const own = layout === 'page-mods';
    const place = (one: DueIssue['absent'][number]) => ({
      section: one.section ?? '',
      page: one.label ?? '',
      order: one.order === null ? '' : String(one.order),
    });
    return [
      { ...facts, ...none, what: issue.absentAsWhole === null ? 'issue' : 'absent issue' },
      ...issue.pages.map((page, at): DueLine => {
        const { frame, reel } = page;
        const what = 'page' as const;
        return { ...facts, ...place({ ...page, published: 'yes' }), document: own ? (pages[at] ?? '') : document, what, reel, frame };
      }),
      ...issue.absent.map((one, at): DueLine => {
        const what = 'absent page' as const;
        return { ...facts, ...place(one), document: own ? (absent[at] ?? '') : document, what, frame: '' };
      }),
    ];
  });
}

function filmLines({ films }: NamedDelivery, layout: LayoutName | null): readonly DueLine[] {
  return films.flatMap(({ film, folder, document, unmatched }): readonly DueLine[] => {
    const facts = { ...none, reel: film.number, title: '', date: '', edition: '' };
    return [
      ...film.targets.map(
        (frame): DueLine => ({ ...facts, folder, document: layout === 'page-mods' ? '' : (document ?? ''), what: 'target', frame }),
      ),
      ...film.unmatched.map(
        (frame, at): DueLine => ({
          ...facts,
          folder: `${folder}/unmatched`,
          document: unmatched[at] ?? '',
          what: 'unmatched frame',
          frame,
        }),
      ),
    ];
  });
}
