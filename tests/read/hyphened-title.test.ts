import { describe, expect, it } from 'vitest';
import { folderWith } from './folder.js';
import { sideOf } from './reading.js';

const mods = (inside: string): string => `<mods xmlns="http://www.loc.gov/mods/v3">${inside}</mods>`;

function batch(title: string, reel: string, named = reel): string {
  const edition = mods(
    `<titleInfo type="uniform" authority="Statens Avissamling"><title>${title}</title></titleInfo><originInfo><dateIssued encoding="iso8601">1907-03-15</dateIssued></originInfo><part><detail type="edition"><number>1</number></detail></part>`,
  );
  const page = mods(
    `<part><extent unit="pages"><start>1</start></extent></part><relatedItem type="original"><identifier type="reel number">${reel}</identifier><identifier type="reel sequence number">1</identifier></relatedItem>`,
  );
  return folderWith({
    [`${reel}/1907-03-15-01/${title}-1907-03-15-01.edition.xml`]: edition,
    [`${reel}/1907-03-15-01/${title}-1907-03-15-01-0001.mods.xml`]: page,
    [`${reel}/${title}-${named}.film.xml`]: `<film><batchIdFilmId>${reel}</batchIdFilmId></film>`,
    [`${reel}/unmatched/${title}-${reel}-0002.jp2`]: 'x',
  });
}

describe('a title with hyphens in the names of files', () => {
  it.each(['lantern', 'north-star', 'north-star-2', 'star-1907'])('%s is told apart from what follows it', async (title) => {
    const side = await sideOf(batch(title, '400022-01'));
    expect(side.problems).toEqual([]);
    expect(side.issues[0]?.copies.map(({ fact, value }) => [fact, value])).toEqual([
      ['title', title],
      ['date', '1907-03-15'],
      ['edition', '1'],
    ]);
    expect(side.reels.map((reel) => [reel.number, reel.frames.map((frame) => frame.frame?.text)])).toEqual([['400022-01', ['1', '0002']]]);
  });

  it('does not hide another reel number', async () => {
    const side = await sideOf(batch('north-star', '400022-01', '400023-01'));
    expect(side.problems.map(({ code, field }) => [code, field])).toEqual([['documents-disagree', 'reel']]);
  });
});
