import type { PairRef } from '../../model/difference.js';
import type { NotFollowed } from '../../model/film.js';
import { type Candidate, candidate } from '../choose.js';
import { counted, draft, type FindingDraft, framesInWords, inSeries, issueName, rangeOf } from '../draft.js';
import { groupBy, idsOf, inFilmOrder } from '../runs.js';
import { returnFrame, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';

type RefOf = (difference: WordedDifference) => PairRef[];

/** How a file that is named is not there, in words that follow "is" or "are", and what is to be done about it. */
const HOW: Readonly<Record<NotFollowed | 'missing' | 'empty', { readonly is: string; readonly are?: string; readonly mend: string }>> = {
  missing: { is: 'not in the batch', mend: 'Deliver' },
  empty: { is: 'empty', mend: 'Deliver' },
  nothing: { is: 'not named: the reference to it is empty', are: 'not named: the references to them are empty', mend: '' },
  address: { is: 'named by an address, not by a path inside the batch, and nothing is read there', mend: '' },
  backslash: { is: 'named with a backslash, which is not a path, so it was not looked for', mend: '' },
  characters: { is: 'named with characters that no path has, so it was not looked for', mend: '' },
  'own-folder': { is: "named by the document's own folder, which is not a file", mend: '' },
  outside: { is: 'outside the batch, where nothing is read', mend: '' },
  link: {
    is: 'a link, and links are not followed',
    are: 'links, and links are not followed',
    mend: 'Deliver the file itself, and no link to it, as',
  },
  device: { is: 'a device or a pipe and not a file', are: 'devices or pipes and not files', mend: 'Deliver the file itself as' },
};

/** Files that are not there: one finding for the pages of an issue that lack them, whatever uses they have, and one for whole uses. */
export function missingFiles(scene: Scene, list: readonly WordedDifference[], refOf: RefOf): Candidate[] {
  const uses = list.filter((one) => one.about === 'use');
  const groups = groupBy(
    list.filter((one) => one.about !== 'use'),
    (one) => `${one.about ?? ''}|${one.returnIssue === null ? JSON.stringify(one.ref) : String(one.returnIssue)}`,
  );
  const named = [...groups.values()].filter((group) => group[0]?.about !== 'unnamed').flatMap(bySamePages);
  return [
    ...(uses.length === 0 ? [] : [candidate(wholeUses(scene, uses))]),
    ...[...groups.values()].flatMap((group) => (group[0]?.about === 'unnamed' ? [candidate(unnamed(scene, group, refOf))] : [])),
    ...alongFilm(scene, named).map((differences) => candidate(notThere(scene, differences, refOf))),
  ];
}

/** Lists of which one ends on the film where the next begins, with the same uses and no page that has its files between, joined. */
function alongFilm(scene: Scene, lists: readonly (readonly WordedDifference[])[]): readonly (readonly WordedDifference[])[] {
  const places = new Map<string, number>();
  for (const { pairs } of scene.alignments)
    for (const { returned } of pairs)
      if (returned !== null && scene.returned.reels[returned.reel]?.frames[returned.frame]?.kind === 'page')
        places.set(JSON.stringify(returned), places.size);
  const placesOf = (list: readonly WordedDifference[]): readonly number[] =>
    list.flatMap(({ ref }) => places.get(JSON.stringify(ref)) ?? []).sort((a, b) => a - b);
  const kind = (list: readonly WordedDifference[]): string =>
    JSON.stringify([list[0]?.about, [...new Set(list.map(({ collation }) => collation))].sort()]);
  const joined: WordedDifference[][] = [];
  const ends = new Map<string, { readonly list: WordedDifference[]; last: number }>();
  for (const list of [...lists].sort((a, b) => (placesOf(a)[0] ?? -1) - (placesOf(b)[0] ?? -1))) {
    const [first, last] = [placesOf(list)[0], placesOf(list).at(-1)];
    const open = ends.get(kind(list));
    if (open !== undefined && first !== undefined && last !== undefined && first === open.last + 1) {
      open.list.push(...list);
      open.last = last;
      continue;
    }
    const begun = [...list];
    joined.push(begun);
    if (last !== undefined) ends.set(kind(list), { list: begun, last });
  }
  return joined;
}

/** Files of several uses that the same pages lack did not come for one reason. */
function bySamePages(group: readonly WordedDifference[]): readonly (readonly WordedDifference[])[] {
  const byUse = groupBy(group, (one) => one.collation ?? '');
  const byPages = groupBy([...byUse.values()], (own) =>
    own
      .map(({ ref }) => JSON.stringify(ref))
      .sort()
      .join(),
  );
  return [...byPages.values()].map((lists) => lists.flat());
}

function notThere(scene: Scene, differences: readonly WordedDifference[], refOf: RefOf): FindingDraft {
  const first = differences[0];
  const refs = inFilmOrder(differences.flatMap(refOf));
  // What is only missing or empty goes by its name; what is not followed is quoted as it stands there.
  const plain = first?.about === 'missing' || first?.about === 'empty';
  const names = differences
    .slice(0, 4)
    .flatMap(({ about, returned }) => (about === 'nothing' || returned === null ? [] : plain ? returned : `"${returned}"`));
  const more = differences.length > 4 && names.length > 0 ? ` and ${String(differences.length - 4)} more` : '';
  const named = names.length === 0 ? '' : ` ${names.join(', ')}${more}`;
  const plural = differences.length > 1;
  const kinds = inSeries([...new Set(differences.map(({ collation }) => collation ?? ''))].sort(), 'and');
  const { is, are, mend } = HOW[(first?.about ?? 'missing') as keyof typeof HOW];
  const files = `${kinds} ${plural ? 'files' : 'file'}`;
  const issues = new Set(differences.map(({ returnIssue }) => returnIssue)).size;
  const owner =
    issues > 1 ? `${counted(issues, 'issue')} in a row (${framesInWords(rangeOf(scene, refs).frames)})` : ownerOf(scene, first, refs);
  return draft(scene, {
    about: refs,
    returnIssue: first?.returnIssue ?? null,
    ...(issues > 1 ? { date: null, edition: null } : {}),
    explains: idsOf(differences),
    code: 'file-missing',
    cause: 'vendor-metadata',
    field: 'file',
    ...readingsOf(first?.about, kinds, named),
    says: `The ${files}${named} of ${owner} ${plural ? 'are' : 'is'} ${plural ? (are ?? is.replace('so it was', 'so they were')) : is}.`,
    instruction:
      mend === ''
        ? `Deliver the ${files} of ${owner}, and name ${plural ? 'them by their paths' : 'it by its path'} inside the batch.`
        : `${mend}${named}.`,
  });
}

/** What is wanted by the name that the return gives it, and what came of it; of what nobody looks for what stands there is all that came. */
function readingsOf(
  about: string | null | undefined,
  kinds: string,
  named: string,
): { readonly collation: string; readonly return: string | null } {
  if (about !== 'missing' && about !== 'empty') return { collation: `${kinds} file`, return: named === '' ? null : named.trim() };
  return { collation: `${kinds} file${named}`, return: about === 'missing' ? 'did not come' : 'came empty' };
}

/** The issue whose files these are, else the frame. */
function ownerOf(scene: Scene, first: WordedDifference | undefined, refs: readonly PairRef[]): string {
  if (first?.returnIssue != null) return issueName(scene, first.returnIssue, 'return');
  const frame = refs[0] === undefined ? undefined : returnFrame(scene, refs[0]);
  const { frames } = rangeOf(scene, refs);
  const number = frame?.frame == null ? null : `frame ${String(frame.frame.exposure)}${frame.frame.half}`;
  const where = frames === null ? (number ?? 'a frame without a number') : framesInWords(frames);
  return frame?.kind === 'target' ? `the target on ${where}` : `${where}, which belongs to no issue`;
}

/** Pages that name no file of uses which every page must have: pages that name no files mostly lack all of them. */
function unnamed(scene: Scene, differences: readonly WordedDifference[], refOf: RefOf): FindingDraft {
  const first = differences[0];
  const refs = inFilmOrder(differences.flatMap(refOf));
  const uses = [...new Set(differences.map((difference) => difference.collation ?? ''))].sort();
  const frames = new Set(differences.map((difference) => JSON.stringify(difference.ref))).size;
  const where = refs.length === 0 ? '' : ` (${framesInWords(rangeOf(scene, refs).frames)})`;
  const pages = `${counted(frames, 'page')} of ${issueName(scene, first?.returnIssue ?? null, 'return')}${where}`;
  const single = frames === 1 && uses.length === 1;
  return draft(scene, {
    about: refs,
    returnIssue: first?.returnIssue ?? null,
    explains: idsOf(differences),
    code: 'file-missing',
    cause: 'vendor-metadata',
    field: 'file',
    collation: `${inSeries(uses, 'or')} file`,
    return: 'no file is named',
    says: `${pages} ${frames === 1 ? 'names' : 'name'} no ${inSeries(uses, 'or')} file.`,
    instruction: `Deliver the ${uses.join(', ')} ${single ? 'file' : 'files'} of ${pages}, and name ${single ? 'it' : 'them'} in the document.`,
  });
}

/** Uses of which not one file came, where the agreement asks for the files. */
function wholeUses(scene: Scene, differences: readonly WordedDifference[]): FindingDraft {
  const uses = inSeries(
    differences.map(({ collation }) => collation ?? ''),
    'or',
  );
  const unheard = differences.every(({ given }) => given === null);
  return draft(scene, {
    about: [],
    explains: idsOf(differences),
    code: 'file-missing',
    cause: 'vendor-metadata',
    reel: null,
    at: null,
    frames: null,
    count: scene.record.reels.flatMap(({ frames }) => frames).filter(({ kind, deliver }) => kind === 'page' && deliver).length,
    field: 'file',
    collation: `${uses} files`,
    return: 'none came',
    says: `Not one ${uses} file came with this batch${unheard ? ', and no document names one' : ''}; the agreement asks for the files of every page.`,
    instruction: `Deliver the ${inSeries(
      differences.map(({ collation }) => collation ?? ''),
      'and',
    )} files of all pages${unheard ? ', and name them in the documents' : ''}.`,
  });
}
