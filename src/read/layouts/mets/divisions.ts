import type { DivisionPart, Profile } from '../../../model/profile.js';
import { typeTail } from '../../kinds.js';
import { problem, type Reading } from '../../reading.js';
import { shortened } from '../../vendor-text.js';
import { attribute, type XmlElement } from '../../xml-tree.js';

/** A division of a structMap with what it is by the profile, and the divisions around it. */
export interface DivisionNode {
  readonly division: XmlElement;
  /** Null for a division that is none of the profile's parts, such as an article. */
  readonly part: DivisionPart | null;
  readonly parent: DivisionNode | null;
  /** TYPE of its structMap, in lower case. */
  readonly map: string;
  /** Its ID, else its place among the divisions of the document. */
  readonly name: string;
}

/** The parts in the order in which a type that several of them list is taken. */
const PARTS: readonly DivisionPart[] = ['scannerTargets', 'issue', 'section', 'page', 'target', 'reel'];

interface TypeRules {
  readonly part: DivisionPart;
  readonly map: string | null;
  readonly types: ReadonlySet<string>;
}

interface KnownByProfile {
  readonly rules: readonly TypeRules[];
  readonly divisions: WeakMap<XmlElement, Divisions>;
}

const knownByProfile = new WeakMap<Profile, KnownByProfile>();

function knownOf(profile: Profile): KnownByProfile {
  const known = knownByProfile.get(profile);
  if (known !== undefined) return known;
  const rules = PARTS.map((part) => {
    const { map, types } = profile.divisions[part];
    return { part, map: map?.toLowerCase() ?? null, types: new Set(types.map(typeTail)) };
  });
  const made = { rules, divisions: new WeakMap<XmlElement, Divisions>() };
  knownByProfile.set(profile, made);
  return made;
}

/** The divisions of a document, and the structMaps that describe once more what an earlier one describes. */
export interface Divisions {
  /** Every division of every structMap in document order, but for those of the repeats. */
  readonly nodes: readonly DivisionNode[];
  /** `same` where it gives the same parts, sections and files as the earlier one. */
  readonly repeats: readonly { readonly map: number; readonly same: boolean }[];
}

/** Reads the divisions of a document. Several structMaps may show several sides of it; one that leads to the same sections for the same parts shows nothing new. */
export function divisionsIn(root: XmlElement, profile: Profile): Divisions {
  const { rules, divisions } = knownOf(profile);
  const known = divisions.get(root);
  if (known !== undefined) return known;
  const read = readDivisions(root, rules);
  divisions.set(root, read);
  return read;
}

function readDivisions(root: XmlElement, rules: readonly TypeRules[]): Divisions {
  const nodes: DivisionNode[] = [];
  const repeats: { map: number; same: boolean }[] = [];
  const led = new Map<string, readonly string[]>();
  let count = 0;
  const maps = root.children.filter(({ name }) => name === 'structMap');
  for (const [at, map] of maps.entries()) {
    const own = nodesOf(map, rules, () => (count += 1));
    // A single one repeats nothing.
    if (maps.length === 1) return { nodes: own, repeats };
    const parts = own.filter(({ part }) => part !== null);
    const signature = parts.map(({ part, division }) => JSON.stringify([part, attribute(division, 'DMDID'), fileIdsOf(division)]));
    const keys = parts.flatMap(({ part, division }) => {
      const sections = attribute(division, 'DMDID') ?? '';
      return sections === '' ? [] : [`${part ?? ''} ${sections}`];
    });
    const earlier = keys.map((key) => led.get(key)).find((known) => known !== undefined);
    if (earlier !== undefined) repeats.push({ map: at + 1, same: earlier.join() === signature.join() });
    else {
      for (const key of keys) led.set(key, signature);
      nodes.push(...own);
    }
  }
  return { nodes, repeats };
}

function nodesOf(map: XmlElement, rules: readonly TypeRules[], next: () => number): readonly DivisionNode[] {
  const found: DivisionNode[] = [];
  const type = (attribute(map, 'TYPE') ?? '').toLowerCase();
  const parts = new Map<string, DivisionPart | null>();
  const partOf = (written: string): DivisionPart | null => {
    const known = parts.get(written);
    if (known !== undefined) return known;
    const tail = typeTail(written);
    const part = rules.find((rule) => rule.types.has(tail) && (rule.map === null || rule.map === type))?.part ?? null;
    parts.set(written, part);
    return part;
  };
  const visit = (element: XmlElement, parent: DivisionNode | null): void => {
    for (const child of element.children) {
      if (child.name !== 'div') continue;
      const node: DivisionNode = {
        division: child,
        part: partOf(attribute(child, 'TYPE') ?? ''),
        parent,
        map: type,
        name: shortened(attribute(child, 'ID') ?? `division ${String(next())}`),
      };
      found.push(node);
      visit(child, node);
    }
  };
  visit(map, null);
  return found;
}

function fileIdsOf(division: XmlElement): readonly (string | null)[] {
  return division.children.filter(({ name }) => name === 'fptr').flatMap((pointer) => [attribute(pointer, 'FILEID')]);
}

/** Says of structMaps that describe once more what an earlier one describes whether they agree with it. */
export function noteRepeatedMaps(reading: Reading, document: string, repeats: Divisions['repeats']): void {
  for (const { map, same } of repeats) {
    const name = `structMap ${String(map)}`;
    if (same) {
      const about = { what: 'structure maps that say once more what another says', why: 'They say the same, so one was compared.' };
      reading.received.section(document, name, 'division', 'unchecked', about);
      continue;
    }
    reading.received.section(document, name, 'division', 'found');
    reading.problems.push(
      problem(
        'documents-disagree',
        `Two structMaps in "${document}" lead to the same sections and do not agree about pages or files; the first was read.`,
        { instruction: `Give one structMap for the pages of "${document}".`, field: 'document', place: { document, element: name } },
      ),
    );
  }
}

/** The nearest division around this one that is such a part. */
export function around(node: DivisionNode, part: DivisionPart): DivisionNode | null {
  let at = node.parent;
  while (at !== null && at.part !== part) at = at.parent;
  return at;
}

/** Whether a division lies below another, or is it. */
export function isWithin(node: DivisionNode, outer: DivisionNode): boolean {
  let at: DivisionNode | null = node;
  while (at !== null && at !== outer) at = at.parent;
  return at === outer;
}

/** The divisions that stand for issues. */
export function issueDivisions(nodes: readonly DivisionNode[]): readonly DivisionNode[] {
  return nodes.filter((node) => node.part === 'issue' && around(node, 'issue') === null);
}

/** The divisions that stand for pages. */
export function pageDivisions(nodes: readonly DivisionNode[]): readonly DivisionNode[] {
  return nodes.filter((node) => node.part === 'page' && around(node, 'page') === null);
}

/** What a METS document is by its divisions, whatever its first element calls it; null where it holds none that make it a document of the layout. */
export function kindByDivisions(root: XmlElement, profile: Profile): 'issue' | 'reel' | null {
  if (root.name !== 'mets') return null;
  const { nodes } = divisionsIn(root, profile);
  const holds = (kind: 'issue' | 'reel', parts: readonly DivisionPart[]): boolean => {
    const more = (profile.documents[kind].holds ?? []).map(typeTail);
    return nodes.some(
      ({ part, division }) => (part !== null && parts.includes(part)) || more.includes(typeTail(attribute(division, 'TYPE') ?? '')),
    );
  };
  return holds('issue', ['issue']) ? 'issue' : holds('reel', ['reel', 'target']) ? 'reel' : null;
}
