import { recordFrame, type Scene } from '../scene.js';

/** The document that most pages of an issue came in; pages of held-back frames do not count. */
export function mainDocument(scene: Scene, recordIssue: number): number | null {
  let best: { document: number; pages: number } | null = null;
  for (const meeting of scene.meetings) {
    if (meeting.recordIssue !== recordIssue) continue;
    const pages = meeting.pairs.filter((ref) => recordFrame(scene, ref)?.deliver === true).length;
    if (best === null || pages > best.pages) best = { document: meeting.returnIssue, pages };
  }
  return best?.document ?? null;
}
