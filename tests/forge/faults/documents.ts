import { plusDays } from '../film/days.js';
import {
  documentOf,
  type Fault,
  issueSite,
  MISCOUNT,
  type Outcome,
  ordinaryIssues,
  pagesOf,
  type Scene,
  type Site,
  VENDOR_DATA,
} from './scene.js';

function present(scene: Scene): Site[] {
  return ordinaryIssues(scene).map((issue) => issueSite(scene.film, issue));
}

function reels(scene: Scene): Site[] {
  return scene.plan.reels.map((_, key) => ({ key, pictures: [], issues: [] }));
}

function ofIssue(code: string, issue: number, pictures: readonly number[] = []): Outcome {
  return { code, causes: VENDOR_DATA, pictures, issue };
}

function ofReel(scene: Scene, code: string, reel: number): Outcome {
  return { code, causes: VENDOR_DATA, pictures: [], issue: null, reel: scene.film.reels[reel]?.number ?? '' };
}

/** What goes wrong with documents and the facts about reels. */
export const DOCUMENT_FAULTS: readonly Fault[] = [
  {
    kind: 'manifest-lacks-issue',
    codes: ['file-not-listed'],
    says: 'The manifest does not list one of the issues that were sent.',
    sites: present,
    plant: (scene, site) => {
      documentOf(scene.plan, site.key).document.manifest = 'left-out';
      return [ofIssue('file-not-listed', site.key)];
    },
  },
  {
    kind: 'manifest-lists-twice',
    codes: ['manifest-disagrees'],
    says: 'The manifest lists the same document twice.',
    sites: present,
    plant: (scene, site) => {
      scene.plan.documents.push({ kind: 'listed-twice', issue: documentOf(scene.plan, site.key).index });
      return [ofIssue('manifest-disagrees', site.key)];
    },
  },
  {
    kind: 'manifest-date-wrong',
    codes: ['documents-disagree'],
    says: 'The manifest gives another date for an issue than its own document.',
    sites: present,
    plant: (scene, site) => {
      const { document } = documentOf(scene.plan, site.key);
      document.manifest = { date: plusDays(document.date, 1), edition: document.edition };
      return [ofIssue('documents-disagree', site.key)];
    },
  },
  {
    kind: 'folder-name-wrong',
    codes: ['documents-disagree'],
    says: 'The folder of an issue is named for another day than its document says.',
    sites: present,
    plant: (scene, site) => {
      const { document } = documentOf(scene.plan, site.key);
      document.folder = { date: plusDays(document.date, 400), edition: document.edition };
      return [ofIssue('documents-disagree', site.key)];
    },
  },
  {
    kind: 'document-cut-off',
    codes: ['document-unreadable'],
    says: 'The document of an issue breaks off in the middle.',
    sites: present,
    plant: (scene, site) => {
      scene.plan.documents.push({ kind: 'unreadable', issue: documentOf(scene.plan, site.key).index });
      return [
        ofIssue(
          'document-unreadable',
          site.key,
          pagesOf(scene.film, site.key).map((shot) => shot.picture),
        ),
      ];
    },
  },
  {
    kind: 'document-not-there',
    codes: ['file-missing'],
    says: 'The manifest lists the document of an issue, and it is not in the batch.',
    sites: present,
    plant: (scene, site) => {
      scene.plan.documents.push({ kind: 'issue-document-missing', issue: documentOf(scene.plan, site.key).index });
      return [
        ofIssue(
          'file-missing',
          site.key,
          pagesOf(scene.film, site.key).map((shot) => shot.picture),
        ),
      ];
    },
  },
  {
    kind: 'stray-document',
    codes: ['file-not-listed'],
    says: 'A document lies in the folder of a reel that nothing lists.',
    sites: reels,
    plant: (scene, site) => {
      scene.plan.documents.push({ kind: 'stray-document', reel: site.key, name: 'work-in-progress.xml' });
      return [{ ...ofReel(scene, 'file-not-listed', site.key) }];
    },
  },
  {
    kind: 'statement-unknown',
    codes: ['vocabulary-unknown'],
    says: 'The statement about an issue is not one of the agreed words.',
    sites: present,
    plant: (scene, site) => {
      documentOf(scene.plan, site.key).document.statementText = 'Scanned OK';
      return [ofIssue('vocabulary-unknown', site.key)];
    },
  },
  {
    kind: 'target-left-out',
    codes: ['target-not-listed'],
    says: 'One target of the reel is not listed though the others are.',
    policies: { targets: 'listed' },
    sites: (scene) =>
      scene.plan.reels.flatMap((reel) =>
        reel.captures
          .filter((capture) => capture.use === 'target')
          .map((capture) => ({ key: capture.picture, pictures: [capture.picture], issues: [] })),
      ),
    plant: (scene, site) => {
      for (const reel of scene.plan.reels) for (const capture of reel.captures) if (capture.picture === site.key) capture.use = 'held';
      return [{ code: 'target-not-listed', causes: VENDOR_DATA, pictures: [site.key], issue: null }];
    },
  },
  {
    kind: 'pictures-miscounted',
    codes: ['count-disagrees'],
    says: 'The film document states another number of images than were taken.',
    profile: 'page-mods',
    sites: reels,
    plant: (scene, site) => {
      const reel = scene.plan.reels[site.key];
      if (reel === undefined) return [];
      reel.facts['numberOfPictures'] = String(reel.captures.length + MISCOUNT);
      return [ofReel(scene, 'count-disagrees', site.key)];
    },
  },
  {
    kind: 'reduction-wrong',
    codes: ['reel-facts-differ'],
    says: 'The reel document states another reduction ratio than the record.',
    sites: reels,
    plant: (scene, site) => {
      const reel = scene.plan.reels[site.key];
      if (reel === undefined) return [];
      reel.facts['reductionRatio'] = '12x';
      return [ofReel(scene, 'reel-facts-differ', site.key)];
    },
  },
  {
    kind: 'printed-date-not-wanted',
    codes: ['not-ordered'],
    says: 'The printed date was given though the agreement leaves it out.',
    policies: { printedDate: 'never' },
    alone: true,
    sites: (scene) => {
      const dated = scene.plan.issues.filter((issue) => issue.datePrinted !== null);
      return dated.length === 1 && dated[0]?.source != null ? [issueSite(scene.film, dated[0].source)] : [];
    },
    plant: (_scene, site) => [ofIssue('not-ordered', site.key)],
  },
];
