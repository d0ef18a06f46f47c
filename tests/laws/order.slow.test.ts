import { describe, expect, it } from 'vitest';
import type { Side } from '../../src/model/film.js';
import { randomFrom } from '../forge/film/random.js';
import { reordered } from './reordered.js';
import { caseOf, judged, namesOf } from './sides.js';

describe('the order in which documents are read', () => {
  it.each(namesOf('differs'))('%s: makes no difference', async (name) => {
    const one = await caseOf(name, 'differs');
    const said = (side: Side): unknown => judged(one, side).findings.map(({ id, says, instruction }) => ({ id, says, instruction }));
    const before = said(one.returned);
    for (const seed of [1, 2, 3]) expect(said(reordered(one.returned, randomFrom(seed)))).toEqual(before);
  });
});
