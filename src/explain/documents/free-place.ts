import type { Absence } from '../../model/film.js';
import { deliveredPages, pageReadingAt, sheetsOf } from '../facts/page-surroundings.js';
import { breaksOfPages, inWholes, type PageReading } from '../facts/regular-pages.js';
import { judged, type Testimony } from '../facts/sides.js';
import type { Scene } from '../scene.js';

/** Whether the record's own issue leaves places free for pages that the return states to be absent: whether it would be more regular with them. */
export function freePlace(scene: Scene, absences: readonly Absence[]): Testimony {
  const [first] = absences;
  if (first === undefined) return { cause: 'vendor-metadata', evidence: [] };
  const issue = scene.record.issues.findIndex(
    ({ title, date, edition }) =>
      title === first.title && date?.day != null && date.day === first.date?.day && (edition ?? 1) === (first.edition ?? 1),
  );
  const labels = absences.flatMap(({ page }) => inWholes(page) ?? []);
  const pages = deliveredPages(scene, issue).flatMap(({ ref }) => pageReadingAt(scene, ref) ?? []);
  if (pages.length === 0 || labels.length < absences.length) return { cause: 'vendor-metadata', evidence: [] };
  const beside = sheetsOf(scene, issue);
  const orders = new Set(pages.map(({ order }) => order));
  // where the record counts on over the place, the labels alone can tell
  const closedUp = absences.some(({ order }) => order === null || orders.has(order));
  const read = (list: readonly PageReading[]): readonly PageReading[] => (closedUp ? list.map((page) => ({ ...page, order: null })) : list);
  const wanted = absences.map(
    ({ page, order, section }): PageReading => ({ label: page, order, section, supplement: false, noted: false }),
  );
  const place = ({ label, order }: PageReading): number => (closedUp ? inWholes(label) : order) ?? Number.POSITIVE_INFINITY;
  const together = [...pages];
  for (const one of wanted) {
    const behind = together.findIndex((page) => place(page) > place(one));
    together.splice(behind < 0 ? together.length : behind, 0, one);
  }
  return judged(breaksOfPages(read(pages), beside), breaksOfPages(read(together), beside));
}
