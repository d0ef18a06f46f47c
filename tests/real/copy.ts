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
import { attribute, element, elements, elementsWith, type Span, withAttribute, withContent } from './xml-text.js';

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
  const written = new Map<string, Buffer>();
  for (const path of documentsOf(folder)) {
    let text = readFileSync(join(folder, path), 'utf8');
    if (elements(text, 'FLocat').length === 0) continue;
    // From the last to the first: an edit leaves the places before it as they are.
    for (const span of elements(text, 'file').reverse()) {
      const [location] = elements(text.slice(span.from, span.to), 'FLocat');
      if (location === undefined) continue;
      const href = attribute(text.slice(span.from), location, 'href') ?? '';
      const target = join(dirname(path), href.replace('file://', ''));
      let content = written.get(target);
      if (content === undefined) {
        if (existsSync(join(folder, target))) continue;
        content = standIn(target);
        mkdirSync(dirname(join(folder, target)), { recursive: true });
        writeFileSync(join(folder, target), content);
        written.set(target, content);
      }
      text = withDigest(text, span, content);
    }
    writeFileSync(join(folder, path), text);
  }
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

/** The text with the digest and size of a file where its own element and the technical sections it points to state them. */
function withDigest(text: string, file: Span, content: Buffer): string {
  let after = text;
  const sections = (attribute(after, file, 'ADMID') ?? '').split(' ').filter((id) => id !== '');
  const type = attribute(after, file, 'CHECKSUMTYPE');
  if (attribute(after, file, 'SIZE') !== null) after = withAttribute(after, file, 'SIZE', String(content.length));
  if (type !== null)
    after = withAttribute(after, element(after, 'file', { ID: attribute(after, file, 'ID') ?? '' }), 'CHECKSUM', digestOf(content, type));
  for (const id of sections) {
    const section = elementsWith(after, 'techMD', { ID: id })[0] ?? elementsWith(after, 'amdSec', { ID: id })[0];
    if (section === undefined) continue;
    const inner = after.slice(section.from, section.to);
    const [digest] = elements(inner, 'messageDigest');
    const [algorithm] = elements(inner, 'messageDigestAlgorithm');
    if (digest === undefined || algorithm === undefined) continue;
    let mended = inner;
    const [size] = elements(mended, 'size');
    if (size !== undefined) mended = withContent(mended, size, String(content.length));
    const named = />([^<]*)</.exec(inner.slice(algorithm.from, algorithm.to))?.[1] ?? '';
    mended = withContent(mended, elements(mended, 'messageDigest')[0] ?? digest, digestOf(content, named));
    after = after.slice(0, section.from) + mended + after.slice(section.to);
  }
  return after;
}
