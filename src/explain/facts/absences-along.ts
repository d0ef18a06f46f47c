import type { Absence } from '../../model/film.js';
import { idsOf } from '../runs.js';
import { fieldOf, type Scene } from '../scene.js';
import { made } from './changes.js';
import type { FactEdit } from './lift.js';
import type { Fact, Statement } from './statements.js';

/** What an issue is known by: an absence that is stated under a changed one is stated of another issue. */
const KNOWN_BY = ['title', 'date', 'edition'] as const;

/** Differences of what is not on the film that a change of a whole reel, title or return brings with it: stated, but of the issue that the changed fact names. */
export function absencesAlong(scene: Scene, edit: FactEdit): readonly number[] {
  const fact = KNOWN_BY.find((name) => name === edit.fact);
  if (fact === undefined || edit.places.length < 2) return [];
  const unstated = fieldOf(scene, 'absence-missing');
  return fieldOf(scene, 'absence-extra').flatMap((extra) => {
    const given = scene.returned.absences[extra.absence ?? -1];
    if (given === undefined) return [];
    const at = scene.record.absences.findIndex(
      (right) =>
        isSame(right, given, fact) && (isStuck(edit, keyOf(right, fact)) || changed(scene, edit, fact, right) === keyOf(given, fact)),
    );
    return at < 0 ? [] : [extra.id, ...idsOf(unstated.filter(({ absence }) => absence === at))];
  });
}

/** Whether the record has its one reading there as well. */
function isStuck({ change }: FactEdit, reading: string | null): boolean {
  return change.kind === 'stuck' && change.by === reading;
}

function isSame(right: Absence, given: Absence, but: (typeof KNOWN_BY)[number]): boolean {
  return (
    right.page?.toUpperCase() === given.page?.toUpperCase() &&
    KNOWN_BY.every((name) => name === but || keyOf(right, name) === keyOf(given, name))
  );
}

function keyOf({ title, date, edition }: Absence, name: (typeof KNOWN_BY)[number]): string | null {
  if (name === 'title') return title;
  return name === 'date' ? (date === null ? null : (date.day ?? date.text)) : String(edition ?? 1);
}

/** What the change makes of the fact of an issue that is not on the film. */
function changed(scene: Scene, { change }: FactEdit, fact: Fact & (typeof KNOWN_BY)[number], right: Absence): unknown {
  const key = keyOf(right, fact) ?? '';
  const statement: Statement = {
    issue: right.issue,
    document: null,
    refs: [],
    reel: null,
    title: right.title,
    needs: 'must',
    right: [{ key, text: key }],
    differs: null,
  };
  return made({ scene, fact, all: [], before: new Map(), after: new Map() }, change, statement);
}
