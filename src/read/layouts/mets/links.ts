import { attribute, type XmlElement } from '../../xml-tree.js';
import { type DivisionNode, isWithin, pageDivisions } from './divisions.js';

/**
 * The pages to which a structLink leads from an issue or from a division below it (METS 1.12.1: smLink, and smLinkGrp with smLocatorLink and
 * smArcLink). A link to a part of a page means the page, a link to a division around pages means all of them; links are followed both ways.
 */
export function linkedPages(root: XmlElement, nodes: readonly DivisionNode[], issue: DivisionNode): readonly DivisionNode[] {
  const byId = new Map<string, DivisionNode>();
  for (const node of nodes) byId.set(attribute(node.division, 'ID') ?? '', node);
  const pages = pageDivisions(nodes);
  const found = new Set<DivisionNode>();
  const follow = (from: DivisionNode | undefined, to: DivisionNode | undefined): void => {
    if (from === undefined || to === undefined || !isWithin(from, issue)) return;
    const around = pages.find((page) => isWithin(to, page));
    if (around !== undefined) found.add(around);
    // A link upwards, from an article to the whole volume, says nothing of single pages.
    else for (const page of pages) if (isWithin(page, to) && !isWithin(issue, to)) found.add(page);
  };
  for (const [from, to] of linksOf(root)) {
    follow(byId.get(from), byId.get(to));
    follow(byId.get(to), byId.get(from));
  }
  return pages.filter((page) => found.has(page));
}

function linksOf(root: XmlElement): readonly (readonly [string, string])[] {
  const links: [string, string][] = [];
  for (const section of root.children) {
    if (section.name !== 'structLink') continue;
    for (const child of section.children) {
      if (child.name === 'smLink') links.push([idOf(attribute(child, 'from')), idOf(attribute(child, 'to'))]);
      if (child.name === 'smLinkGrp') links.push(...linksOfGroup(child));
    }
  }
  return links;
}

function linksOfGroup(group: XmlElement): readonly [string, string][] {
  const byLabel = new Map<string, string[]>();
  for (const locator of group.children) {
    if (locator.name !== 'smLocatorLink') continue;
    const label = attribute(locator, 'label') ?? '';
    byLabel.set(label, [...(byLabel.get(label) ?? []), idOf(attribute(locator, 'href'))]);
  }
  return group.children
    .filter((child) => child.name === 'smArcLink')
    .flatMap((arc) =>
      (byLabel.get(attribute(arc, 'from') ?? '') ?? []).flatMap((from) =>
        (byLabel.get(attribute(arc, 'to') ?? '') ?? []).map((to): [string, string] => [from, to]),
      ),
    );
}

function idOf(reference: string | null): string {
  return (reference ?? '').replace(/^#/, '');
}
