import { attribute, collapsed, type XmlElement } from './xml-tree.js';

interface Step {
  readonly name: string;
  readonly tests: readonly AttributeTest[];
}

interface AttributeTest {
  readonly attribute: string;
  /** null: the attribute need only be there. */
  readonly value: string | null;
  readonly wanted: boolean;
}

interface Path {
  readonly steps: readonly Step[];
  readonly attribute: string | null;
}

const STEP = /^([A-Za-z_][\w.-]{0,79})((?:\[[^[\]]{1,120}\]){0,4})$/;
const TEST = /^@([A-Za-z_][\w.-]{0,79})(?:=(?:"([^"]{0,100})"|([^"'\s]{1,100})))?$/;

/** Why a fact path cannot be used, in one sentence; null when it can. */
export function pathFault(path: string): string | null {
  return path.length <= 400 && parsePath(path) !== null
    ? null
    : `The path "${path.slice(0, 120)}" cannot be read. A path looks like relatedItem[@type=host]/identifier[@type="reel number"].`;
}

/** The first text at a path; null where none stands there. */
export function readFirst(root: XmlElement, path: string): string | null {
  const known = cached(path);
  return known === null ? null : follow(root, known, 0);
}

/** The texts at a path, one for each place where any stands, in document order. */
export function readAll(root: XmlElement, path: string): readonly string[] {
  const known = cached(path);
  return (known === null ? null : gather(root, known, 0, null)) ?? NOTHING;
}

const NOTHING: readonly string[] = [];

/** The texts found so far with those that stand here; null for none. Mostly there is one at the end. */
function gather(element: XmlElement, path: Path, at: number, before: string[] | null): string[] | null {
  const step = path.steps[at];
  let found = before;
  if (step === undefined) {
    const text = textAt(element, path);
    if (text === null) return found;
    if (found === null) return [text];
    found.push(text);
    return found;
  }
  for (const child of element.children) if (fits(child, step)) found = gather(child, path, at + 1, found);
  return found;
}

function follow(element: XmlElement, path: Path, at: number): string | null {
  const step = path.steps[at];
  if (step === undefined) return textAt(element, path);
  for (const child of element.children) {
    if (!fits(child, step)) continue;
    const text = follow(child, path, at + 1);
    if (text !== null) return text;
  }
  return null;
}

function textAt(element: XmlElement, path: Path): string | null {
  const text = path.attribute === null ? collapsed(element.text) : (attribute(element, path.attribute) ?? '');
  return text === '' ? null : text;
}

function fits(element: XmlElement, { name, tests }: Step): boolean {
  if (element.name !== name) return false;
  for (const test of tests) if (!passes(element, test)) return false;
  return true;
}

function passes(element: XmlElement, test: AttributeTest): boolean {
  const value = attribute(element, test.attribute);
  const holds = test.value === null ? value !== null : value === test.value;
  return holds === test.wanted;
}

const cache = new Map<string, Path | null>();

function cached(text: string): Path | null {
  const known = cache.get(text);
  if (known !== undefined) return known;
  const path = parsePath(text);
  cache.set(text, path);
  return path;
}

function parsePath(text: string): Path | null {
  // A slash inside brackets belongs to a value.
  const parts = text.split(/\/(?![^[]*\])/);
  const last = parts.at(-1) ?? '';
  const attributeName = /^@([A-Za-z_][\w.-]{0,79})$/.exec(last)?.[1] ?? null;
  const steps = (attributeName === null ? parts : parts.slice(0, -1)).map(parseStep);
  return steps.every((step) => step !== null) ? { steps, attribute: attributeName } : null;
}

function parseStep(text: string): Step | null {
  const match = STEP.exec(text);
  if (match === null) return null;
  const tests = [...(match[2] ?? '').matchAll(/\[([^[\]]+)\]/g)].map((test) => parseTest(test[1] ?? ''));
  return tests.every((test) => test !== null) ? { name: match[1] ?? '', tests } : null;
}

function parseTest(text: string): AttributeTest | null {
  const negated = /^not\((.{1,110})\)$/.exec(text)?.[1];
  const match = TEST.exec(negated ?? text);
  if (match === null) return null;
  return { attribute: match[1] ?? '', value: match[2] ?? match[3] ?? null, wanted: negated === undefined };
}
