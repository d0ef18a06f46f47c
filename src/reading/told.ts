import type { ReadingFile } from '../model/reading.js';

/** How a reading file has a workbook read, a line for each part of it that says something. */
export function readingInWords(reading: ReadingFile): readonly string[] {
  const {
    sheets,
    columns,
    titles,
    words,
    dates,
    ditto,
    frames,
    loneNumbers,
    pages,
    noPages,
    spreads,
    duplicates,
    retakes,
    colours,
    comments,
    struck,
    phrases,
    rows,
    leaves,
  } = reading;
  const pairs = <Value>(dictionary: { readonly [k: string]: Value } | undefined): readonly (readonly [string, Value])[] =>
    Object.entries(dictionary ?? {});
  const line = (head: string, parts: readonly string[]): readonly string[] => (parts.length === 0 ? [] : [`${head}: ${parts.join('; ')}`]);
  const is = (own: string, ours: string): string => (own === ours ? `"${own}"` : `"${own}" is ${ours}`);
  const named = pairs(columns).filter(([, { is: ours }]) => ours !== 'note' && ours !== 'nothing');
  const of = (meaning: string): readonly string[] => pairs(columns).flatMap(([head, one]) => (one.is === meaning ? [`"${head}"`] : []));
  return [
    ...line(
      'Sheets',
      pairs(sheets).map(([name, { is: use, reel }]) => `"${name}" holds ${use}${reel === undefined ? '' : ` of reel ${reel}`}`),
    ),
    ...line(
      'Columns',
      named.map(([head, { is: ours }]) => is(head, ours)),
    ),
    ...line('Kept as notes', of('note')),
    ...line('Not read', of('nothing')),
    ...line(
      'An empty cell below means the same',
      pairs(columns).flatMap(([head, { below }]) => (below === 'as above' ? [`"${head}"`] : [])),
    ),
    ...line(
      'Titles',
      pairs(titles).map(([name, id]) => (name === '' ? `all are ${id}` : is(name, id))),
    ),
    ...pairs(words).flatMap(([field, own]) =>
      line(
        field === 'note' ? 'What a note alone says' : `Words for "${field}"`,
        pairs(own).map(([word, ours]) => is(word, ours)),
      ),
    ),
    ...line('Days in figures', dates?.order === undefined ? [] : [dates.order]),
    ...line('Years of two digits', dates?.century === undefined ? [] : [`${dates.century}..`]),
    ...line('Days without a year', dates?.year === undefined ? [] : [`of ${dates.year}`]),
    ...line('Calendar', dates?.calendar === undefined ? [] : [dates.calendar]),
    ...line('A ditto mark', ditto === undefined ? [] : [ditto]),
    ...line('Frames', frames === undefined ? [] : ['counted from the first row of a reel']),
    ...line('A number alone among the pages', loneNumbers === undefined ? [] : [`a ${loneNumbers}`]),
    ...line(
      'Pages beside those that are missing',
      pages === undefined ? [] : [pages === 'published' ? 'as published, the missing among them' : 'as filmed, without the missing'],
    ),
    ...line(
      'An issue with frames and no pages',
      noPages === undefined ? [] : [noPages === 'a page each' ? 'each frame is a page, from 1 on' : noPages],
    ),
    ...line('Two pages as a range', spreads === undefined ? [] : [`on ${spreads}`]),
    ...line('Frames that repeat another', duplicates === undefined ? [] : [duplicates]),
    ...line(
      'Frames that replace another',
      retakes === undefined ? [] : [retakes === 'both' ? 'both are delivered' : 'the retake is delivered, the other held back'],
    ),
    ...line(
      'Colours',
      pairs(colours).map(([colour, says]) => `${colour}: ${says}`),
    ),
    ...line('Comments on cells', comments === undefined ? [] : [comments === 'notes' ? 'notes of their rows' : 'not read']),
    ...line('Rows that are struck through', struck === undefined ? [] : [struck === 'keep' ? 'read as they stand' : 'left out']),
    ...line(
      'Phrases in notes',
      pairs(phrases).map(([phrase, as]) => `"${phrase}" is a ${as}`),
    ),
    ...line(
      'Rows of one text',
      pairs(rows).map(([text, what]) => `"${text}": ${what}`),
    ),
    ...line('May leave the house', leaves?.map((head) => `"${head}"`) ?? []),
  ];
}
