import type { DivisionPart, DocumentPart } from '../../../model/profile.js';
import { readPart } from '../../facts/part-facts.js';
import { problem, type Reading } from '../../reading.js';
import { shortened } from '../../vendor-text.js';
import { attribute, descendants, type XmlElement } from '../../xml-tree.js';
import type { DivisionNode } from './divisions.js';

/** A metadata section: the element in which its facts stand, and whether any division leads to it. */
export interface MetadataSection {
  readonly id: string;
  /** What the account calls it: its ID is another's too where `repeated`. */
  readonly name: string;
  readonly repeated: boolean;
  readonly root: XmlElement;
  placed: boolean;
}

/** The sections to which a division leads, in the order of its DMDIDs, and the IDs that lead nowhere. */
export interface Led {
  readonly sections: readonly MetadataSection[];
  readonly lost: readonly string[];
}

/** The metadata sections of a document, and to which of them each division leads. */
export interface SectionLinks {
  readonly all: readonly MetadataSection[];
  readonly from: (division: XmlElement) => Led;
}

/**
 * Follows DMDID. Where a link is broken and only one reading is possible it is mended: sections that share an ID go to as many divisions that name it,
 * in their order; divisions that lead nowhere go to as many sections of their kind to which nothing leads. Each is one problem of the document.
 */
export function linkSections(reading: Reading, document: string, root: XmlElement, nodes: readonly DivisionNode[]): SectionLinks {
  const all = sectionsOf(reading, document, root);
  const byId = new Map<string, MetadataSection[]>();
  for (const section of all) {
    const own = byId.get(section.id);
    if (own === undefined) byId.set(section.id, [section]);
    else own.push(section);
  }
  const parts = nodes.filter(({ part }) => part !== null);
  const dealt = new Map<string, number>();
  const naming = new Map<string, number>();
  for (const { division } of parts) for (const id of idsOf(division)) naming.set(id, (naming.get(id) ?? 0) + 1);
  const links = new Map<XmlElement, Led>();
  const follow = (division: XmlElement): Led => {
    const sections: MetadataSection[] = [];
    const lost: string[] = [];
    for (const id of idsOf(division)) {
      const own = byId.get(id) ?? [];
      const at = own.length > 1 && own.length === naming.get(id) ? (dealt.get(id) ?? 0) : 0;
      dealt.set(id, at + 1);
      const section = own[at];
      if (section === undefined) lost.push(id);
      else {
        section.placed = true;
        sections.push(section);
      }
    }
    return { sections, lost };
  };
  for (const { division } of parts) links.set(division, follow(division));
  const named = new Set(nodes.flatMap(({ division }) => idsOf(division)));
  for (const [id, own] of byId)
    if (own.length > 1)
      noteRepeated(
        reading,
        document,
        id,
        own.length,
        own.every(({ placed }) => placed),
      );
  mend(
    reading,
    document,
    parts,
    links,
    all.filter((section) => !section.placed && (section.repeated || !named.has(section.id))),
  );
  return { all, from: (division) => links.get(division) ?? follow(division) };
}

function idsOf(division: XmlElement): readonly string[] {
  return (attribute(division, 'DMDID') ?? '')
    .split(' ')
    .filter((id) => id !== '')
    .map((id) => shortened(id));
}

function sectionsOf(reading: Reading, document: string, root: XmlElement): readonly MetadataSection[] {
  const sections: MetadataSection[] = [];
  const seen = new Map<string, XmlElement[]>();
  for (const element of root.children) {
    if (element.name !== 'dmdSec') continue;
    const written = attribute(element, 'ID');
    const id = written === null ? null : shortened(written);
    const content = factRoot(element);
    if (id === null || content === null) {
      const name = id ?? `metadata section ${String(sections.length + 1)} without an ID`;
      reading.received.section(document, name, 'metadata', 'unchecked', {
        what: 'metadata sections that nothing can lead to, or in which nothing stands',
        why: 'They have no ID, or hold no metadata in XML.',
      });
      continue;
    }
    const known = seen.get(id) ?? [];
    const again = known.length === 0 ? id : `${id} (again${known.length > 1 ? ` ${String(known.length)}` : ''})`;
    if (known.some((other) => JSON.stringify(other) === JSON.stringify(content)))
      reading.received.section(document, again, 'metadata', 'unchecked', {
        what: 'metadata sections that stand twice in one document',
        why: 'Both say the same, so one of them was compared.',
      });
    else sections.push({ id, name: again, repeated: known.length > 0, root: content, placed: false });
    seen.set(id, [...known, content]);
  }
  return sections;
}

/** The element in which the facts of a section stand: its MODS, else whatever it wraps. */
function factRoot(section: XmlElement): XmlElement | null {
  return descendants(section, 'mods')[0] ?? descendants(section, 'xmlData')[0]?.children[0] ?? null;
}

function noteRepeated(reading: Reading, document: string, id: string, count: number, dealt: boolean): void {
  const number = count === 2 ? 'Two' : String(count);
  const how = dealt ? 'as many divisions lead to it, so they were read in their order' : 'the first was read';
  reading.problems.push(
    problem('documents-disagree', `${number} metadata sections in "${document}" have the ID "${id}" and say different things; ${how}.`, {
      instruction: `Give each part of "${document}" an ID of its own, and take out what is wrong.`,
      field: 'document',
      place: { document, element: id },
    }),
  );
}

/** The parts whose sections can be known by what they say, with facts of which one is enough. */
const KNOWN_BY: readonly (readonly [DivisionPart & DocumentPart, readonly string[]])[] = [
  ['issue', ['titleId', 'date']],
  ['page', ['frame', 'order']],
  ['target', ['frame']],
];

function mend(
  reading: Reading,
  document: string,
  nodes: readonly DivisionNode[],
  links: Map<XmlElement, Led>,
  spare: readonly MetadataSection[],
): void {
  const free = new Set(spare);
  for (const [part, facts] of KNOWN_BY) {
    const lost = nodes.filter((node) => node.part === part && (links.get(node.division)?.sections.length ?? 0) === 0);
    const fitting = [...free].filter(({ root, id }) => {
      const said = readPart(reading.profile, part, { sections: [root], document, place: { document, element: id } }, null).facts;
      return Object.keys(said).some((fact) => facts.includes(fact));
    });
    if (lost.length === 0 || lost.length !== fitting.length) continue;
    lost.forEach(({ division }, at) => {
      const section = fitting[at];
      if (section === undefined) return;
      section.placed = true;
      free.delete(section);
      links.set(division, { sections: [section], lost: [] });
    });
    noteMended(reading, document, part, lost, fitting);
  }
}

function noteMended(
  reading: Reading,
  document: string,
  part: string,
  lost: readonly DivisionNode[],
  sections: readonly MetadataSection[],
): void {
  const [node, section] = [lost[0], sections[0]];
  if (node === undefined || section === undefined) return;
  const target = idsOf(node.division).join(' ');
  const leads = target === '' ? 'to no metadata section' : `to "${target}", which is not a metadata section of it`;
  const says =
    lost.length === 1
      ? `The ${part} division in "${document}" leads ${leads}; nothing leads to the section "${section.name}", which was read as its own.`
      : `${String(lost.length)} ${part} divisions in "${document}" lead nowhere (the first ${leads}); nothing leads to as many sections (the first "${section.name}"), which were read as theirs, in their order.`;
  reading.problems.push(
    problem('documents-disagree', says, {
      instruction: 'Lead each division to the section that describes it.',
      field: 'document',
      returned: target === '' ? null : target,
      place: { document, element: section.id },
    }),
  );
}
