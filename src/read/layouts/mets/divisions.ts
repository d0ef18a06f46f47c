import type { DivisionPart, Profile } from '../../../model/profile.js';
import { typeTail } from '../../kinds.js';
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

const rulesByProfile = new WeakMap<Profile, readonly TypeRules[]>();

function rulesOf(profile: Profile): readonly TypeRules[] {
  const known = rulesByProfile.get(profile);
  if (known !== undefined) return known;
  const rules = PARTS.map((part) => {
    const { map, types } = profile.divisions[part];
    return { part, map: map?.toLowerCase() ?? null, types: new Set(types.map(typeTail)) };
  });
  rulesByProfile.set(profile, rules);
  return rules;
}

/** Every division of every structMap, in document order. */
export function divisionsOf(root: XmlElement, profile: Profile): readonly DivisionNode[] {
  const rules = rulesOf(profile);
  const found: DivisionNode[] = [];
  const visit = (element: XmlElement, parent: DivisionNode | null, map: string): void => {
    for (const child of element.children) {
      if (child.name !== 'div') continue;
      const type = typeTail(attribute(child, 'TYPE') ?? '');
      const part = rules.find((rule) => rule.types.has(type) && (rule.map === null || rule.map === map))?.part ?? null;
      const node: DivisionNode = {
        division: child,
        part,
        parent,
        map,
        name: attribute(child, 'ID') ?? `division ${String(found.length + 1)}`,
      };
      found.push(node);
      visit(child, node, map);
    }
  };
  for (const map of root.children) if (map.name === 'structMap') visit(map, null, (attribute(map, 'TYPE') ?? '').toLowerCase());
  return found;
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
  const nodes = divisionsOf(root, profile);
  const holds = (kind: 'issue' | 'reel', parts: readonly DivisionPart[]): boolean => {
    const more = (profile.documents[kind].holds ?? []).map(typeTail);
    return nodes.some(
      ({ part, division }) => (part !== null && parts.includes(part)) || more.includes(typeTail(attribute(division, 'TYPE') ?? '')),
    );
  };
  return holds('issue', ['issue']) ? 'issue' : holds('reel', ['reel', 'target']) ? 'reel' : null;
}
