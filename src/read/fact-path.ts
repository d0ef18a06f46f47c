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

/** The text at the first path that holds any; null when none does. */
export function readFirst(root: XmlElement, alternatives: readonly string[]): string | null {
  for (const alternative of alternatives) {
    const path = cached(alternative);
    const text = path === null ? null : follow(root, path, 0);
    if (text !== null) return text;
  }
  return null;
}

/** The texts at a path, one for each place where any stands, in document order. */
export function readAll(root: XmlElement, alternative: string): readonly string[] {
  const path = cached(alternative);
  return path === null ? [] : gather(root, path, 0);
}

function gather(element: XmlElement, path: Path, at: number): readonly string[] {
  const step = path.steps[at];
  if (step === undefined) return follow(element, path, at) === null ? [] : [follow(element, path, at) ?? ''];
  return element.children
    .filter((child) => child.name === step.name && step.tests.every((test) => passes(child, test)))
    .flatMap((child) => gather(child, path, at + 1));
}

function follow(element: XmlElement, path: Path, at: number): string | null {
  const step = path.steps[at];
  if (step === undefined) {
    const text = path.attribute === null ? collapsed(element.text) : (attribute(element, path.attribute) ?? '');
    return text === '' ? null : text;
  }
  for (const child of element.children) {
    if (child.name !== step.name || !step.tests.every((test) => passes(child, test))) continue;
    const text = follow(child, path, at + 1);
    if (text !== null) return text;
  }
  return null;
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
