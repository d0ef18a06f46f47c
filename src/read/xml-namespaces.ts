import { XML_PREFIX, XMLNS_PREFIX } from './xml-names.js';

const XML_URI = 'http://www.w3.org/XML/1998/namespace';
const XMLNS_URI = 'http://www.w3.org/2000/xmlns/';

/** Which prefixes mean what at the place that is being read; empty text is "not declared". */
export interface NamespaceScope {
  readonly uris: string[];
  /** What declarations of open elements put aside: prefix, earlier meaning, depth of the element. */
  readonly undo: { readonly prefix: number; readonly uri: string; readonly depth: number }[];
  depth: number;
}

/** A scope in which nothing is declared but `xml`. */
export function newScope(): NamespaceScope {
  const uris: string[] = [];
  uris[0] = '';
  uris[XML_PREFIX] = XML_URI;
  uris[XMLNS_PREFIX] = XMLNS_URI;
  return { uris, undo: [], depth: 0 };
}

/** Begins an element: declarations that follow are its own. */
export function enterElement(scope: NamespaceScope, depth: number): void {
  scope.depth = depth;
}

/** Declares a prefix on the current element. Answers what is wrong with the declaration (Namespaces in XML 1.0, section 3), or null. */
export function bindPrefix(scope: NamespaceScope, prefix: number, uri: string): string | null {
  if (prefix === XMLNS_PREFIX) return 'the prefix "xmlns" is declared';
  if (prefix === XML_PREFIX) return uri === XML_URI ? null : 'the prefix "xml" is declared as something else';
  if (uri === XML_URI || uri === XMLNS_URI) return `a prefix is declared as ${uri}`;
  if (prefix !== 0 && uri === '') return 'a prefix is declared as nothing';
  const before = scope.uris[prefix] ?? '';
  // Many documents repeat all their declarations on every element.
  if (before === uri) return null;
  scope.undo.push({ prefix, uri: before, depth: scope.depth });
  scope.uris[prefix] = uri;
  return null;
}

/** Ends an element: its declarations no longer hold. */
export function leaveElement(scope: NamespaceScope, depth: number): void {
  for (let last = scope.undo.at(-1); last !== undefined && last.depth === depth; last = scope.undo.at(-1)) {
    scope.uris[last.prefix] = last.uri;
    scope.undo.pop();
  }
}

/** Whether a prefix is declared here. */
export function isBound(scope: NamespaceScope, prefix: number): boolean {
  const uri = scope.uris[prefix];
  return uri !== undefined && uri !== '';
}

/** Whether two prefixes mean the same namespace here. */
export function sameNamespace(scope: NamespaceScope, a: number, b: number): boolean {
  return scope.uris[a] === scope.uris[b];
}
