import { typeTail } from '../../kinds.js';
import type { Reading } from '../../reading.js';
import { shortened } from '../../vendor-text.js';
import { attribute, type XmlElement } from '../../xml-tree.js';
import type { DivisionNode } from './divisions.js';
import type { MetsParts } from './parts.js';

/** Says of every metadata section, file entry and division of a document what became of it. `found` holds the sections and divisions that a problem is about. */
export function accountFor(reading: Reading, parts: MetsParts, nodes: readonly DivisionNode[], found: ReadonlySet<XmlElement>): void {
  const { received } = reading;
  const { document } = parts;
  for (const { name, repeated, placed, root } of parts.sections.all) {
    if (found.has(root) || repeated) received.section(document, name, 'metadata', 'found');
    else if (placed) received.section(document, name, 'metadata', 'compared');
    else
      received.section(document, name, 'metadata', 'unchecked', {
        what: 'metadata sections of nothing that is compared',
        why: 'They belong to no issue, section, page, target or reel, and say nothing of a place on the film.',
      });
  }
  for (const { id, use, ignored, draft, placed } of parts.files.values()) {
    if (ignored)
      received.section(document, id, 'file', 'unchecked', {
        what: `file entries of the use "${use}"`,
        why: 'The profile says that such files are not delivered.',
      });
    else if (draft === null)
      received.section(document, id, 'file', 'unchecked', {
        what: 'files inside documents',
        why: 'They are not looked at.',
      });
    else if (placed) received.section(document, id, 'file', 'compared');
    else
      received.section(document, id, 'file', 'unchecked', {
        what: `file entries (${use}) to which no page points`,
        why: 'No division of a page or target leads to them, so they were held against nothing.',
      });
  }
  for (const node of nodes) {
    if (node.part !== null) received.section(document, node.name, 'division', found.has(node.division) ? 'found' : 'compared');
    else {
      // Articles and text blocks come by the thousand: those of one type are one thing.
      const type = shortened(typeTail(attribute(node.division, 'TYPE') ?? ''));
      received.section(document, type === '' ? 'divisions without a type' : `divisions of the type ${type}`, 'division', 'unchecked', {
        what: 'divisions that are none of the parts of the profile',
        why: 'They say how the text is divided, and nothing of pages or frames.',
      });
    }
  }
}
