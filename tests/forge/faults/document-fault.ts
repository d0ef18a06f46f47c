import { type Film, type FilmShot } from '../film/film.js';
import { type PlanIssue } from '../plan.js';
import { documentOf, type Fault, issueSite, type Outcome, ordinaryIssues, pagesOf, type Scene, VENDOR_DATA } from './scene.js';

/** A further document like another one, with its own facts where they differ and no absent pages. */
export function copyOf(document: PlanIssue, change: Partial<PlanIssue>): PlanIssue {
  return { ...structuredClone(document), absent: [], source: null, ...change };
}

/** The label that stands on the paper, as a vendor gives it. */
export function printedLabel(shot: FilmShot): string | null {
  return shot.pagePrinted === '-' ? null : (shot.pagePrinted ?? shot.page);
}

/** One wrong fact of one document; the frames are the delivered pages of the issue. */
export function documentFault(
  kind: string,
  code: string,
  says: string,
  fits: (scene: Scene, issue: number) => boolean,
  change: (document: PlanIssue, film: Film, issue: number) => void,
): Fault {
  return {
    kind,
    codes: [code],
    says,
    sites: (scene) => ordinaryIssues(scene).flatMap((issue) => (fits(scene, issue) ? [issueSite(scene.film, issue)] : [])),
    plant: (scene, site) => {
      change(documentOf(scene.plan, site.key).document, scene.film, site.key);
      return [wholeIssue(scene, site.key, code)];
    },
  };
}

/** The finding that names every delivered page of an issue. */
export function wholeIssue(scene: Scene, issue: number, code: string): Outcome {
  return { code, causes: VENDOR_DATA, pictures: pagesOf(scene.film, issue).map((shot) => shot.picture), issue };
}
