import { createHash } from 'node:crypto';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { filesBelow } from './facts.js';
import { attribute, elements, elementsWith, type Span } from './xml-text.js';

/** A new empty folder that belongs to this run. */
export function workFolder(): string {
  return mkdtempSync(join(tmpdir(), 'reeltally-real-'));
}

/** Copies a return to a new place, where it may be written to whatever its own rights are. */
export function copyOf(folder: string, to: string): void {
  cpSync(folder, to, { recursive: true });
  chmodSync(to, 0o755);
  for (const entry of readdirSync(to, { recursive: true, withFileTypes: true }))
    chmodSync(join(entry.parentPath, entry.name), entry.isDirectory() ? 0o755 : 0o644);
}

/** The text of a file of the copy put through an edit. */
export function editFile(folder: string, path: string, edit: (text: string) => string): void {
  const before = readFileSync(join(folder, path), 'utf8');
  const after = edit(before);
  if (after === before) throw new RangeError(`The edit changes nothing in ${path}.`);
  writeFileSync(join(folder, path), after);
}

/** Renames every file and folder in whose name a text stands, the innermost first. */
export function renameAll(folder: string, from: string, to: string): void {
  for (const name of readdirSync(folder)) {
    if (statSync(join(folder, name)).isDirectory()) renameAll(join(folder, name), from, to);
    if (name.includes(from)) renameSync(join(folder, name), join(folder, name.replaceAll(from, to)));
  }
}

/** Takes a file out of the copy. */
export function removeFile(folder: string, path: string): void {
  rmSync(join(folder, path));
}

/** The METS documents and manifests of a copy. */
export function documentsOf(folder: string): string[] {
  return filesBelow(folder).filter(
    (path) => path.endsWith('.xml') && /^[^<]*(?:<\?[^>]*>\s*|<!--.*?-->\s*)*<(?:\w+:)?(?:mets|batch)[\s>]/s.test(headOf(folder, path)),
  );
}

function headOf(folder: string, path: string): string {
  return readFileSync(join(folder, path), 'utf8').slice(0, 2000);
}

/**
 * Writes a small file for every file that a document names and that is not there, each with content of its own, and its true digest and size into the
 * documents that state one. So a return that was published without its pictures becomes one in which files can be lost and copied over each other.
 */
export function writeStandIns(folder: string): void {
  const written = new Set<string>();
  for (const path of documentsOf(folder)) {
    for (const target of namedIn(folder, path)) {
      if (existsSync(join(folder, target))) continue;
      mkdirSync(dirname(join(folder, target)), { recursive: true });
      writeFileSync(join(folder, target), standIn(target));
      written.add(target);
    }
  }
  // where a file was there, what is stated of it stays as it is, right or wrong
  for (const path of documentsOf(folder)) restateDigests(folder, path, (target) => written.has(target));
}

/** Writes the true digests and sizes of files into the document that names them. */
export function restateDigests(folder: string, path: string, chosen: (target: string) => boolean = () => true): void {
  const text = readFileSync(join(folder, path), 'utf8');
  const changes = elements(text, 'file').flatMap((file) => {
    const target = targetOf(text, file, path);
    if (target === null || !chosen(target) || !existsSync(join(folder, target))) return [];
    return digestChanges(text, file, readFileSync(join(folder, target)));
  });
  // from the last to the first: a change leaves the places before it as they are
  const after = changes
    .sort((one, other) => other.from - one.from)
    .reduce((whole, { from, to, content }) => whole.slice(0, from) + content + whole.slice(to), text);
  writeFileSync(join(folder, path), after);
}

function namedIn(folder: string, path: string): string[] {
  const text = readFileSync(join(folder, path), 'utf8');
  return elements(text, 'file').flatMap((span) => targetOf(text, span, path) ?? []);
}

/** The path of the file that an entry names, null where it names none. */
function targetOf(text: string, span: Span, path: string): string | null {
  const [location] = elements(text.slice(span.from, span.to), 'FLocat');
  if (location === undefined) return null;
  return join(dirname(path), (attribute(text.slice(span.from), location, 'href') ?? '').replace('file://', ''));
}

function standIn(path: string): Buffer {
  return Buffer.from(
    path.endsWith('.xml') ? `<?xml version="1.0" encoding="UTF-8"?>\n<alto><!-- ${path} --></alto>\n` : `a stand-in for ${path}\n`,
  );
}

const ALGORITHMS: Readonly<Record<string, string>> = { MD5: 'md5', 'SHA-1': 'sha1', 'SHA-256': 'sha256' };

function digestOf(content: Buffer, algorithm: string): string {
  return createHash(ALGORITHMS[algorithm] ?? algorithm)
    .update(content)
    .digest('hex');
}

interface Change {
  readonly from: number;
  readonly to: number;
  readonly content: string;
}

/** What has to be changed where a file's own element and the technical sections it points to state its digest and size. */
function digestChanges(text: string, file: Span, content: Buffer): Change[] {
  const type = attribute(text, file, 'CHECKSUMTYPE');
  const tag = { from: file.from, to: file.open };
  const own = [
    ...(type === null ? [] : inAttribute(text, tag, 'CHECKSUM', digestOf(content, type))),
    ...inAttribute(text, tag, 'SIZE', String(content.length)),
  ];
  const sections = (attribute(text, file, 'ADMID') ?? '').split(' ').flatMap((id) => {
    const [section] = [...elementsWith(text, 'techMD', { ID: id }), ...elementsWith(text, 'amdSec', { ID: id })];
    return section ?? [];
  });
  const stated = sections.flatMap(({ from, to }) => {
    const inner = text.slice(from, to);
    const algorithm = contentIn(inner, 'messageDigestAlgorithm');
    const digest = contentIn(inner, 'messageDigest');
    const size = contentIn(inner, 'size');
    return [
      ...(algorithm === null || digest === null ? [] : [{ ...digest, content: digestOf(content, algorithm.content) }]),
      ...(size === null ? [] : [{ ...size, content: String(content.length) }]),
    ].map((change) => ({ ...change, from: change.from + from, to: change.to + from }));
  });
  return [...own, ...stated];
}

function inAttribute(text: string, tag: { readonly from: number; readonly to: number }, name: string, content: string): Change[] {
  const found = new RegExp(`\\s${name}="([^"]*)"`).exec(text.slice(tag.from, tag.to));
  if (found === null) return [];
  const to = tag.from + found.index + found[0].length - 1;
  return [{ from: to - (found[1] ?? '').length, to, content }];
}

/** The text that the first element of a name holds, and where it stands. */
function contentIn(text: string, name: string): Change | null {
  const [span] = elements(text, name);
  if (span === undefined) return null;
  const to = text.lastIndexOf('</', span.to - 1);
  return { from: span.open, to, content: text.slice(span.open, to) };
}
