import type { Archive } from './archive.js';
import { readPart } from './part-events.js';

/** Where a part leads: names of parts by the id of the relationship, and the last word of its type. */
export interface Relation {
  readonly id: string;
  /** Such as `worksheet` or `sharedStrings`, the same in the transitional and the strict form. */
  readonly type: string;
  /** Name of the part inside the archive. */
  readonly target: string;
}

/** The relationships of a part (ECMA-376 part 2, section 6.5); those that lead out of the archive are left out. */
export function relationsOf(archive: Archive, part: string): readonly Relation[] {
  const slash = part.lastIndexOf('/');
  const folder = part.slice(0, slash + 1);
  const bytes = archive.part(`${folder}_rels/${part.slice(slash + 1)}.rels`);
  if (bytes === null) return [];
  const relations: Relation[] = [];
  readPart(bytes, `${archive.file}, part ${folder}_rels/${part.slice(slash + 1)}.rels`, {
    open: ({ name, attribute }) => {
      if (name !== 'Relationship' || attribute('TargetMode') === 'External') return;
      const type = attribute('Type') ?? '';
      relations.push({
        id: attribute('Id') ?? '',
        type: type.slice(type.lastIndexOf('/') + 1),
        target: resolved(folder, attribute('Target') ?? ''),
      });
    },
  });
  return relations;
}

/** A target as the name of a part. It only ever names an entry of the same archive, so steps above its root lead nowhere. */
function resolved(folder: string, target: string): string {
  const steps = target.startsWith('/') ? target.split('/') : `${folder}${target}`.split('/');
  const path: string[] = [];
  for (const step of steps) {
    if (step === '..') path.pop();
    else if (step !== '' && step !== '.') path.push(step);
  }
  return path.join('/');
}
