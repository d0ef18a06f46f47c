import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICIES } from '../../src/catalogue/agreement.js';
import { compareDocuments } from '../../src/compare/documents.js';
import { folderWith } from './folder.js';
import { copyLines, sideOf } from './reading.js';

interface Page {
  readonly order?: string;
  readonly number?: string;
  readonly section?: string;
  readonly reel?: string;
  readonly frame?: string;
  readonly present?: string;
  readonly title?: string;
}

/** A page document as rows 2C-1 to 2C-11 of the Danish appendices describe it. */
function page({ order, number, section, reel, frame, present = 'Present', title = 'fjordposten' }: Page): string {
  const detail = (type: string, text?: string): string =>
    text === undefined ? '' : `<detail type="${type}"><number>${text}</number></detail>`;
  const id = (type: string, text?: string): string => (text === undefined ? '' : `<identifier type="${type}">${text}</identifier>`);
  return `<?xml version='1.0'?><mods xmlns="http://www.loc.gov/mods/v3"><part>${order === undefined ? '' : `<extent unit="pages"><start>${order}</start></extent>`}${detail('sectionLabel', section)}${detail('pageNumber', number)}</part><relatedItem type="original">${id('reel number', reel)}${id('reel sequence number', frame)}<note type="noteAboutReproduction">${present}</note></relatedItem><relatedItem type="host"><titleInfo type="uniform" authority="Statens Avissamling"><title>${title}</title></titleInfo></relatedItem></mods>`;
}

/** An edition document as rows 2D-1 to 2D-7 describe it; `asPrinted` puts the attributes of 2D-1 where the row prints them. */
function edition(
  date: string,
  rest: { readonly printed?: string; readonly present?: string; readonly number?: string; readonly asPrinted?: boolean },
): string {
  const title = rest.asPrinted
    ? '<m:titleInfo><m:title type="uniform" authority="Statens Avissamling">fjordposten</m:title></m:titleInfo>'
    : '<m:titleInfo type="uniform" authority="Statens Avissamling"><m:title>fjordposten</m:title></m:titleInfo>';
  const printed =
    rest.printed === undefined ? '' : `<m:dateIssued encoding="iso8601" qualifier="questionable">${rest.printed}</m:dateIssued>`;
  const number =
    rest.number === undefined
      ? ''
      : `<m:relatedItem type="host"><m:part><m:detail type="edition"><m:number>${rest.number}</m:number></m:detail></m:part></m:relatedItem>`;
  return `<m:mods xmlns:m="http://www.loc.gov/mods/v3">${title}<m:titleInfo><m:title>Fjordposten</m:title></m:titleInfo><m:originInfo>${printed}<m:dateIssued encoding="iso8601">${date}</m:dateIssued></m:originInfo><m:note>${rest.present ?? 'Present'}</m:note>${number}</m:mods>`;
}

const film = (pictures: string): string =>
  `<a:reelMetadata xmlns:a="http://www.statsbiblioteket.dk/avisdigitalisering/microfilm/1/0/"><a:batchIdFilmId>4000123-01</a:batchIdFilmId><a:startDate>1907-03-15</a:startDate><a:numberOfPictures>${pictures}</a:numberOfPictures><a:reductionRatio>15x</a:reductionRatio></a:reelMetadata>`;

const root = 'B4000123-RT1/4000123-01';
const folder = `${root}/1907-03-15-01`;
const stem = `${folder}/fjordposten-1907-03-15-01`;
const reel = '4000123-01';

const batch = {
  [`${root}/fjordposten-4000123-01.film.xml`]: film('5'),
  [`${stem}.edition.xml`]: edition('1907-03-15', { printed: '1907-03-14', number: '1' }),
  [`${stem}-0001A.mods.xml`]: page({ order: '1', reel, frame: '1A' }),
  [`${stem}-0001B.mods.xml`]: page({ order: '2', number: '2', reel, frame: '0001B' }),
  [`${stem}-0002.mods.xml`]: page({ order: '4', number: 'B1', section: 'Sektion B', reel, frame: '2' }),
  [`${stem}-X0001.mods.xml`]: page({ order: '3', reel, present: 'Not digitised, not published' }),
  [`${root}/UNMATCHED/fjordposten-4000123-01-0003.jp2`]: 'image',
  [`${root}/UNMATCHED/fjordposten-4000123-01-0003.mix.xml`]: '<mix/>',
  [`${root}/FILM-ISO-target/fjordposten-4000123-01-ISO-1.jp2`]: 'image',
  [`${root}/FILM-ISO-target/fjordposten-4000123-01-ISO-2.jp2`]: 'image',
};

describe('a return of page and edition documents', () => {
  it('gives the issue with both dates and what its names say again', async () => {
    const side = await sideOf(folderWith(batch));
    expect(side.problems).toEqual([]);
    expect(side.issues).toHaveLength(1);
    expect(side.issues[0]).toMatchObject({
      title: 'fjordposten',
      date: { day: '1907-03-15' },
      datePrinted: { day: '1907-03-14' },
      edition: 1,
      present: true,
    });
    expect(copyLines(side.issues[0]!.copies)).toEqual([
      'title | file name | fjordposten | fjordposten',
      'date | folder name | 1907-03-15 | 1907-03-15',
      'edition | folder name | 01 | 1',
    ]);
  });

  it('gives the frames of the film, halves and unmatched ones among them', async () => {
    const side = await sideOf(folderWith(batch));
    expect(side.reels).toHaveLength(1);
    const [only] = side.reels;
    expect(only).toMatchObject({
      number: '4000123-01',
      alsoKnownAs: ['4000123'],
      targetsListed: false,
      facts: { numberOfPictures: '5', reductionRatio: '15x', startDate: '1907-03-15', isoTargets: '2' },
    });
    expect(
      only!.frames.map(({ frame, kind, deliver, order, section, page: label, pageKey }) => [
        `${String(frame?.exposure)}${frame?.half ?? ''}`,
        kind,
        deliver,
        order,
        section,
        label,
        pageKey,
      ]),
    ).toEqual([
      ['1A', 'page', true, 1, null, null, null],
      ['1B', 'page', true, 2, null, '2', '2'],
      ['2', 'page', true, 4, 'B', 'B1', '1'],
      ['3', 'unmatched', false, null, null, null, null],
    ]);
    expect(copyLines(only!.frames[1]!.copies)).toEqual(['reel | folder name | 4000123-01 | 4000123-01', 'frame | file name | 0001B | 1B']);
    expect(side.absences).toMatchObject([{ order: 3, published: 'no', reel: '4000123-01', issue: 0 }]);
  });

  it('takes the size of an image from the MIX document beside it', async () => {
    const mix =
      '<x:mix xmlns:x="http://www.loc.gov/mix/v20"><x:BasicImageInformation><x:BasicImageCharacteristics><x:imageWidth>9000</x:imageWidth><x:imageHeight>6000</x:imageHeight></x:BasicImageCharacteristics></x:BasicImageInformation></x:mix>';
    const side = await sideOf(folderWith({ ...batch, [`${stem}-0002.mix.xml`]: mix, [`${stem}-0002.jp2`]: 'image' }));
    const files = side.reels[0]!.frames.map((frame) =>
      frame.files.filter((file) => file.use === 'image').map((file) => [file.state, file.width, file.height]),
    );
    expect(files).toEqual([[['missing', null, null]], [['missing', null, null]], [['present', 9000, 6000]], [['present', null, null]]]);
  });

  it('reads the title where the published row prints its attributes, and the edition from the folder where no document gives it', async () => {
    const second = 'B4000123-RT1/4000123-01/1907-03-15-02';
    const side = await sideOf(
      folderWith({ ...batch, [`${second}/fjordposten-1907-03-15-02.edition.xml`]: edition('1907-03-15', { asPrinted: true }) }),
    );
    expect(side.issues.map(({ title, edition: number }) => [title, number])).toEqual([
      ['fjordposten', 1],
      ['fjordposten', 2],
    ]);
  });

  it('says where names, pages and documents disagree', async () => {
    const side = await sideOf(
      folderWith({
        ...batch,
        [`${folder}/fjordposten-1907-03-16-01-0004.mods.xml`]: page({ order: '5', reel: '4000999-01', frame: '5', title: 'strandbladet' }),
      }),
    );
    const frame = side.reels.find((one) => one.number === '4000999-01')!.frames[0]!;
    expect(copyLines(frame.copies)).toEqual([
      'date | file name | 1907-03-16 | 1907-03-16',
      'reel | folder name | 4000123-01 | 4000123-01',
      'frame | file name | 0004 | 4',
    ]);
    expect(copyLines(side.issues[0]!.copies).at(-1)).toBe('title | page document | strandbladet | strandbladet');
    const disagree = compareDocuments(side, DEFAULT_POLICIES, () => []).filter(({ field }) => field === 'copy');
    expect(disagree.map(({ about, expected, given }) => [about, expected?.[0]?.text, given?.text])).toContainEqual([
      'date file name',
      '1907-03-15',
      '1907-03-16',
    ]);
  });

  it('keeps the pages of a folder without an edition document', async () => {
    const pages = Object.fromEntries(Object.entries(batch).filter(([path]) => !path.endsWith('.edition.xml')));
    const side = await sideOf(folderWith(pages));
    expect(side.problems.map(({ code, date, edition: number }) => [code, date, number])).toEqual([['file-missing', '1907-03-15', 1]]);
    expect(side.issues[0]).toMatchObject({ date: { day: '1907-03-15' }, edition: 1, title: 'fjordposten' });
    expect(side.reels[0]!.frames).toHaveLength(4);
  });

  it('tells editions in one folder apart by their names', async () => {
    const side = await sideOf(
      folderWith({
        ...batch,
        [`${folder}/fjordposten-1907-03-16-01.edition.xml`]: edition('1907-03-16', {}),
        [`${folder}/fjordposten-1907-03-16-01-0004.mods.xml`]: page({ order: '1', reel, frame: '4' }),
      }),
    );
    expect(side.issues.map((issue) => issue.date?.day)).toEqual(['1907-03-15', '1907-03-16']);
    expect(side.reels[0]!.frames.map((frame) => frame.issue)).toEqual([0, 0, 0, null, 1]);
  });

  it('takes a later folder for the documents it holds and an earlier one for the rest', async () => {
    const first = folderWith(batch);
    const again = folderWith({
      [`B4000123-RT2/4000123-01/1907-03-15-01/fjordposten-1907-03-15-01-0002.mods.xml`]: page({
        order: '4',
        number: 'B2',
        section: 'B',
        reel,
        frame: '2',
      }),
    });
    const side = await sideOf([first, again]);
    expect(side.reels[0]!.frames.map((frame) => frame.page)).toEqual([null, '2', 'B2', null]);
  });
});
