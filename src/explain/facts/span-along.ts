import { fieldOf, returnIssueOf, type Scene } from '../scene.js';

/**
 * Differences of the days that reels are said to span, on the reels of these alignments, where that is what the return's own documents there give: of what
 * the dates are wrong by, the span is wrong too.
 */
export function spansAlong(scene: Scene, alignments: ReadonlySet<number>): readonly number[] {
  return fieldOf(scene, 'reel-fact').flatMap(({ id, about, ref, given }) => {
    const reel = ref?.reel ?? -1;
    const isHere = [...alignments].some((at) => scene.alignments[at]?.returnReels.includes(reel) === true);
    const [from = '', to = ''] = given?.text.split(' to ') ?? [];
    if (about !== 'span of dates' || !isHere || to === '') return [];
    const frames = scene.returned.reels[reel]?.frames ?? [];
    const days = [...new Set(frames.map(({ issue }) => issue))].flatMap((issue) => returnIssueOf(scene, issue)?.date?.day ?? []);
    return days.length > 0 && days.every((day) => from <= day && day <= to) ? [id] : [];
  });
}
