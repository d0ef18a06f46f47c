import { plainReading, writtenNumber } from '../expect/fact.js';
import type { ReturnRef } from '../model/alignment.js';
import type { Frame, PageFile, Side } from '../model/film.js';
import type { Draft } from './draft.js';
import { listOf } from './fact.js';

/** Which frame named a file first, and which carried a digest first; filled frame by frame. */
export interface FileMemory {
  readonly paths: Map<string, ReturnRef>;
  readonly digests: Map<string, ReturnRef>;
}

/** A memory with nothing in it. */
export function newFileMemory(): FileMemory {
  return { paths: new Map(), digests: new Map() };
}

/** Differences of the files of one frame: what is not there, and what another frame has too; each other frame is told once, whatever files they share. */
export function compareFiles(returned: Side, ref: ReturnRef, memory: FileMemory): readonly Draft[] {
  const frame = returned.reels[ref.reel]?.frames[ref.frame];
  if (frame === undefined) return [];
  const drafts: Draft[] = [];
  const told = new Set<string>();
  const tell = (field: 'same-file' | 'digest', twin: ReturnRef, file: PageFile, given: string): void => {
    const key = `${String(twin.reel)}:${String(twin.frame)}`;
    if (told.has(key)) return;
    told.add(key);
    const other = returned.reels[twin.reel]?.frames[twin.frame];
    drafts.push({
      field,
      form: 'other',
      ref,
      twin,
      returnIssue: frame.issue,
      about: file.use,
      expected: listOf(plainReading(writtenNumber(other)?.text ?? null)),
      given: plainReading(given),
    });
  };
  for (const file of frame.files) {
    if (file.state === 'missing' || file.state === 'empty' || file.state === 'unsafe' || file.state === 'unnamed')
      drafts.push({
        field: 'file',
        form: 'missing',
        ref,
        returnIssue: frame.issue,
        about: file.because ?? file.state,
        expected: listOf(plainReading(file.use)),
        given: file.href === '' ? null : plainReading(file.href),
      });
    const named = file.path === null ? null : earlier(memory.paths, file.path, ref);
    if (named !== null && !namedAlike(frame, returned.reels[named.reel]?.frames[named.frame], file))
      tell('same-file', named, file, file.href);
    if (named !== null || file.digest === null || file.use === 'ocr') continue;
    const carried = earlier(memory.digests, file.digest, ref);
    if (carried !== null && !isSamePage(returned, frame, carried)) tell('digest', carried, file, file.digest);
  }
  return drafts;
}

/** Differences of whole uses, where the files are required: not one file came of a use that documents name, or of pictures that the profile asks for. */
export function compareFileUses({ fileUses, reels }: Side): readonly Draft[] {
  if (fileUses === undefined || !reels.some(({ frames }) => frames.some(({ kind }) => kind === 'page'))) return [];
  const none = fileUses.filter(({ came }) => !came).map(({ use, named }) => ({ use, named }));
  if (fileUses.length === 0) none.push({ use: 'page', named: 0 });
  return none.map(({ use, named }) => ({
    field: 'file',
    form: 'missing',
    about: 'use',
    expected: listOf(plainReading(use)),
    given: named === 0 ? null : plainReading(String(named)),
  }));
}

/** The frame that had this before, null where this one is the first. */
function earlier(known: Map<string, ReturnRef>, key: string, ref: ReturnRef): ReturnRef | null {
  const first = known.get(key);
  if (first === undefined) known.set(key, ref);
  return first === undefined || (first.reel === ref.reel && first.frame === ref.frame) ? null : first;
}

/** Files are named after frame numbers: where two frames bear one number and no file came, their names say nothing. */
function namedAlike(frame: Frame, other: Frame | undefined, file: PageFile): boolean {
  return file.state === 'not-looked-for' && sameNumber(frame, other);
}

/** True where somebody wrote the same number for both frames. */
function sameNumber(one: Frame, other: Frame | undefined): boolean {
  const [mine, theirs] = [writtenNumber(one), writtenNumber(other)];
  return mine !== null && mine.exposure === theirs?.exposure && mine.half === theirs.half;
}

/** Whether a frame shows the same page of the same issue: an issue that is described twice has the same pictures twice by nature, and is told as that. */
function isSamePage(returned: Side, frame: Frame, ref: ReturnRef): boolean {
  const other = returned.reels[ref.reel]?.frames[ref.frame];
  const [mine, theirs] = [returned.issues[frame.issue ?? -1], returned.issues[other?.issue ?? -1]];
  if (other === undefined || mine === undefined || theirs === undefined || mine === theirs) return false;
  return (
    frame.order !== null &&
    frame.order === other.order &&
    mine.title === theirs.title &&
    mine.date?.text === theirs.date?.text &&
    mine.edition === theirs.edition
  );
}
