import { LIBRARY } from '../../film/names.js';
import type { Capture, ReturnPlan } from '../../plan.js';
import type { WrittenFile } from '../files.js';
import { reelAsPlace, type WriteStyle } from '../style.js';
import { type Element, el, writeXml } from '../xml.js';
import { folderOfIssue, groupsOfIssue, issueDocument } from './issue.js';
import { groupFiles } from './parts.js';
import { groupsOfReel, reelDocument } from './reel.js';

/** One state in which the documents of a batch are sent: as the vendor wrote them, or as they were checked, under a name that ends in `_1`. */
interface State {
  readonly mark: '' | '_1';
  readonly style: WriteStyle;
}

function statesOf(style: WriteStyle): readonly State[] {
  const plain: State = { mark: '', style: { ...style, ...(style.documents === 'both' ? { technical: 'none' as const } : {}) } };
  const checked: State = { mark: '_1', style: { ...style, technical: 'all-files', validated: true } };
  return style.documents === 'plain' ? [plain] : style.documents === 'validated' ? [checked] : [plain, checked];
}

/** The batch as manifest, reel documents and one METS document per issue with a MODS section per page, and the files that they name. */
export function* writeIssueMets(plan: ReturnPlan, style: WriteStyle): Generator<WrittenFile> {
  const issuePaths = pathsOfIssues(plan, style);
  const reelPaths = plan.reels.map((_, r) => reelPath(plan, r, style));
  const pages = pagesByIssue(plan);
  for (const state of statesOf(style)) {
    const marked = (path: string): string => path.replace(/\.xml$/, `${state.mark}.xml`);
    const text = (root: Element): string => writeXml(root, state.style.xml);
    const listed = manifest(plan, issuePaths.map(marked), reelPaths.map(marked), state.style);
    yield { path: marked(style.manifestName), text: text(listed) };
    for (const [r, reel] of plan.reels.entries()) {
      const path = marked(reelPaths[r] ?? '');
      yield { path, text: text(reelDocument(plan, reel, state.style)) };
      for (const stray of plan.documents)
        if (stray.kind === 'stray-document' && stray.reel === r)
          yield { path: path.replace(/[^/]*$/, stray.name), text: text(reelDocument(plan, reel, state.style)) };
    }
    for (const [i, issue] of plan.issues.entries()) {
      if (plan.documents.some((fault) => fault.kind === 'issue-document-missing' && fault.issue === i)) continue;
      const whole = text(issueDocument(plan, issue, pages[i] ?? [], state.style));
      const cut = plan.documents.some((fault) => fault.kind === 'unreadable' && fault.issue === i);
      yield { path: marked(issuePaths[i] ?? ''), text: cut ? whole.slice(0, Math.floor(whole.length / 2)) : whole };
    }
  }
  for (const [r, reel] of plan.reels.entries()) {
    const { scanner, film } = groupsOfReel(plan, reel, style);
    yield* groupFiles(folderOf(reelPaths[r] ?? ''), [...scanner, ...film], style);
  }
  for (const [i, issue] of plan.issues.entries())
    yield* groupFiles(folderOf(issuePaths[i] ?? ''), groupsOfIssue(plan, issue, pages[i] ?? [], style), style);
}

const folderOf = (path: string): string => path.slice(0, path.lastIndexOf('/'));

/** Captures of every document in reading order. */
export function pagesByIssue(plan: ReturnPlan): Capture[][] {
  const out: Capture[][] = plan.issues.map(() => []);
  for (const reel of plan.reels)
    for (const capture of reel.captures) if (capture.use === 'page' && capture.issue !== null) out[capture.issue]?.push(capture);
  return out.map((list) =>
    list
      .map((capture, i) => ({ capture, i }))
      .sort((a, b) => (a.capture.order ?? 0) - (b.capture.order ?? 0) || a.i - b.i)
      .map(({ capture }) => capture),
  );
}

function pathsOfIssues(plan: ReturnPlan, style: WriteStyle): string[] {
  const taken = new Set<string>();
  return plan.issues.map((issue) => {
    const name = folderOfIssue(issue);
    const path = `${issue.title}/${reelAsPlace(plan.reels[issue.reel]?.number ?? '', style)}/${name}/${name}.xml`;
    if (taken.has(path)) throw new RangeError(`Two documents of the plan would be written to ${path}.`);
    taken.add(path);
    return path;
  });
}

function reelPath(plan: ReturnPlan, r: number, style: WriteStyle): string {
  const number = reelAsPlace(plan.reels[r]?.number ?? '', style);
  const title = plan.issues.find((issue) => issue.reel === r)?.title ?? plan.titles[0]?.id ?? '';
  return `${title}/${number}/${number}.xml`;
}

function manifest(plan: ReturnPlan, issuePaths: readonly string[], reelPaths: readonly string[], style: WriteStyle): Element {
  const before = style.listedPaths === 'batch' ? `../${plan.batch}/` : style.listedPaths;
  const issues = plan.issues.flatMap((issue, i) => {
    if (issue.manifest === 'left-out') return [];
    const { date, edition } = issue.manifest ?? issue;
    const attributes = { lccn: issue.title, issueDate: date, editionOrder: String(edition).padStart(style.editionDigits, '0') };
    const entry = el('batch:issue', attributes, `${before}${issuePaths[i] ?? ''}`);
    return plan.documents.some((fault) => fault.kind === 'listed-twice' && fault.issue === i) ? [entry, entry] : [entry];
  });
  const reels = plan.reels.map((reel, r) =>
    el('batch:reel', { reelNumber: reelAsPlace(reel.number, style) }, `${before}${reelPaths[r] ?? ''}`),
  );
  return el('batch:batch', { name: plan.batch, awardee: LIBRARY.code, awardYear: '2031' }, ...issues, ...reels);
}
