import { describe, expect, it } from 'vitest';
import { changedPolicies } from '../../src/history/agreed.js';
import { recogniseEarlier, sinceEarlier } from '../../src/history/earlier.js';
import { mapFilm, spot, spotsOf } from '../../src/history/film-map.js';
import { earlierMistakes, otherMistake } from '../../src/history/same-batch.js';
import type { Policies } from '../../src/model/agreement.js';
import type { DifferenceField } from '../../src/model/difference.js';
import type { Finding, Findings, ResultFrame } from '../../src/model/findings.js';
import { EXAMPLE, frame as page, finding as plainly } from '../report/example.js';

const frame = (number: string, facts: Partial<ResultFrame> = {}): ResultFrame => page(number, { findings: [], files: [], ...facts });
const finding = (id: string, facts: Partial<Finding> = {}): Finding =>
  plainly({ id, code: 'date-differs', severity: 'major', says: '', field: 'date', at: '5', ...facts });

interface Made {
  readonly frames?: readonly ResultFrame[];
  readonly findings?: readonly Finding[];
  readonly run?: Partial<Findings['run']>;
  readonly facts?: Partial<Findings>;
}

const NINE = Array.from({ length: 9 }, (_, at) => frame(String(at + 1)));
/** Nine pages of reel 00417, one or the other exchanged for what is given. */
const strip = (...changed: readonly ResultFrame[]): readonly ResultFrame[] =>
  NINE.map((one) => changed.find(({ frame: name }) => name === one.frame) ?? one);

function result({ frames = NINE, findings = [], run = {}, facts = {} }: Made = {}): Findings {
  return {
    ...EXAMPLE,
    run: { ...EXAMPLE.run, inputs: [], ...run },
    reels: [{ number: '00417', absent: [], frames }],
    findings,
    corrected: [],
    unchecked: [],
    ...facts,
  };
}

const files = (collation: string, batch: string): Partial<Findings['run']> => ({
  inputs: [
    ...(collation === '' ? [] : [{ role: 'collation', name: 'record.json', sha256: collation }]),
    ...(batch === '' ? [] : [{ role: 'batch', name: 'batch', sha256: batch }]),
  ],
});

/** What became of findings that are in the earlier result and not in this one, by id. */
function since(was: Findings, now: Findings, facts: ReadonlyMap<string, readonly DifferenceField[]> = new Map(), textRead = true) {
  const { findings, matched } = recogniseEarlier(now.findings, was, now.run);
  const at = new Map([...facts].map(([key, fields]) => [spot('00417', key), new Set(fields)]));
  return sinceEarlier(was, { ...now, findings }, matched, at, textRead);
}

/** The fate of one gone finding in a word or a sentence. */
function fate(
  gone: Finding,
  was: Made = {},
  now: Made = {},
  facts: Readonly<Record<string, readonly DifferenceField[]>> = {},
  textRead = true,
): string {
  const known = result({ ...was, findings: [gone, ...(was.findings ?? [])] });
  const { corrected, unchecked } = since(known, result(now), new Map(Object.entries(facts)), textRead);
  const mended = corrected.find(({ id }) => id === gone.id);
  return mended === undefined
    ? (unchecked.find(({ what }) => what.includes(gone.id))?.why ?? 'lost')
    : `corrected: ${String(mended.changed)}`;
}

const GONE = finding('gone-1');

describe('an earlier finding that is gone', () => {
  it('is corrected where its frames agree, on the side whose files changed', () => {
    const sides = (was: Partial<Findings['run']>, now: Partial<Findings['run']>): string => fate(GONE, { run: was }, { run: now });
    expect(sides(files('a', 'x'), files('a', 'y'))).toBe('corrected: return');
    expect(sides(files('a', 'x'), files('b', 'x'))).toBe('corrected: record');
    expect(sides(files('a', 'x'), files('a', 'x'))).toBe('corrected: unclear');
    expect(sides(files('', 'x'), files('', 'x'))).toBe('corrected: unclear');
    expect(sides(files('a', 'x'), files('b', 'y'))).toBe('corrected: return');
    expect(sides({}, {})).toBe('corrected: return');
  });

  it('is of nobody knows which side where both changed and the result does not repeat the fact', () => {
    const both = [{ run: files('a', 'x') }, { run: files('b', 'y') }] as const;
    expect(fate({ ...GONE, field: 'datePrinted' }, ...both)).toBe('corrected: unclear');
    for (const field of ['deliver', 'page', 'order', 'section', 'title', 'date', 'edition', 'frame', 'number', 'file', 'document', 'image'])
      expect([field, fate({ ...GONE, field }, ...both)]).toEqual([field, 'corrected: return']);
    // what the record says of the frame was changed
    expect(fate(GONE, both[0], { ...both[1], frames: strip(frame('5', { date: '1899-01-06' })) })).toBe('corrected: record');
    expect(fate(GONE, both[0], { ...both[1], frames: strip(frame('5', { condition: ['torn'] })) })).toBe('corrected: record');
    expect(fate(GONE, both[0], { ...both[1], frames: strip(frame('6', { date: '1899-01-06' })) })).toBe('corrected: return');
  });

  it('of an absence is the record’s where the record states others now', () => {
    const both = [{ run: files('a', 'x') }, { run: files('b', 'y') }] as const;
    const absence = { ...GONE, field: 'absence', date: '1899-01-05', at: null };
    const absent = (date: string) => ({
      ...both[1],
      facts: {
        reels: [
          {
            number: '00417',
            frames: NINE,
            absent: [{ title: 'vz90000001', date, edition: 1, page: null, section: null, order: null, reason: '' }],
          },
        ] as unknown as Findings['reels'],
      },
    });
    expect(fate(absence, ...both)).toBe('corrected: return');
    expect(fate(absence, both[0], absent('1899-01-05'))).toBe('corrected: record');
    expect(fate(absence, both[0], absent('1899-01-12'))).toBe('corrected: return');
  });

  it('waits where the record has none of its frames any more', () => {
    const less = NINE.filter((one) => one.frame !== '5');
    expect(fate(GONE, {}, { frames: less })).toBe('The record has none of its frames any more.');
    expect(fate({ ...GONE, at: '4', frames: { from: '4', to: '5' } }, {}, { frames: less })).toMatch(/^corrected/);
  });

  it('waits where its reel or its frames were not compared', () => {
    const nothing = NINE.map((one) => ({ ...one, state: 'not-compared' as const, returnedKind: null, returned: null }));
    expect(fate(GONE, {}, { frames: nothing })).toBe('Nothing of its reel was compared this time.');
    expect(fate({ ...GONE, reel: null, at: null }, {}, { frames: nothing })).toBe('Nothing of its reel was compared this time.');
    expect(fate({ ...GONE, reel: '00999', at: null }, {}, { frames: NINE })).toMatch(/^corrected/);
    const lost = strip(frame('5', { returned: null, returnedKind: null, state: 'record-only' }));
    expect(fate(GONE, {}, { frames: lost })).toBe('Its frames did not come, or could not be compared again.');
    // it had not come before either, and what is known of that is known still
    const known = finding('known-1', { code: 'page-not-delivered', field: 'deliver' });
    expect(fate(GONE, { frames: lost, findings: [known] }, { frames: lost, findings: [known] })).not.toMatch(/did not come/);
    expect(fate(GONE, { frames: lost }, { frames: lost })).toMatch(/did not come/);
    expect(fate(GONE, { findings: [known] }, { frames: lost, findings: [known] })).toMatch(/did not come/);
  });

  it('at a frame that is held back waits only where nothing of its reel was compared', () => {
    const held = frame('5', { kind: 'blank', deliver: false, returned: null, returnedKind: null, state: 'not-compared' });
    expect(fate(GONE, { frames: strip(held) }, { frames: strip(held) })).toMatch(/^corrected/);
  });

  it('waits where a document in which it may stand did not come', () => {
    const unread = (facts: Partial<Finding> = {}): Finding =>
      finding('unread-1', { code: 'document-unreadable', field: 'document', at: null, places: [], ...facts });
    const here = { places: [{ document: 'issue-1.xml' }] as unknown as Finding['places'] };
    const may = (gone: Partial<Finding>, lost: Finding): boolean =>
      fate({ ...GONE, ...gone }, {}, { findings: [lost] }).includes('did not come or could not be read (unread-1)');
    expect(may(here, unread(here))).toBe(true);
    expect(may(here, unread({ ...here, code: 'file-missing' }))).toBe(true);
    // an image that is missing holds no fact, and another code says nothing of documents
    expect(may(here, unread({ ...here, code: 'file-missing', field: 'file' }))).toBe(false);
    expect(may(here, unread({ ...here, code: 'title-differs', field: 'title', at: '9' }))).toBe(false);
    expect(may(here, unread({ places: [{ document: 'issue-2.xml' }] as unknown as Finding['places'], at: '9' }))).toBe(false);
    // of the same frames
    expect(may({}, unread({ at: '5' }))).toBe(true);
    expect(may({}, unread({ at: '6' }))).toBe(false);
    // nothing on the film tells of it: the same issue, or nobody knows which
    const off = { at: null, date: '1899-01-05' };
    expect(may(off, unread({ date: '1899-01-05' }))).toBe(true);
    expect(may(off, unread({ date: '1899-01-05', title: 'other' }))).toBe(false);
    expect(may(off, unread({ date: '1899-01-05', title: null }))).toBe(true);
    expect(may({ ...off, title: null }, unread({ date: '1899-01-05', title: 'other' }))).toBe(true);
    expect(may(off, unread({ date: '1899-01-12' }))).toBe(false);
    expect(may(off, unread())).toBe(true);
    expect(may(off, unread({ at: '6' }))).toBe(false);
    expect(may({ at: null }, unread({ date: '1899-01-05' }))).toBe(true);
    // its frame came and shows a page: what is unread of another day is not it
    expect(may({ date: '1899-01-05' }, unread({ date: '1899-01-05' }))).toBe(false);
  });

  it('waits where no page of its issue came', () => {
    const off = { ...GONE, at: null, date: '1899-01-05' };
    const dated = (date: string, returnedKind: 'page' | null): readonly ResultFrame[] =>
      NINE.map((one, at) => ({ ...one, ...(at < 4 ? { date, returnedKind } : { date: '1899-02-02' }) }));
    expect(fate(off, {}, { frames: dated('1899-01-05', null) })).toBe('No page of its issue came this time.');
    expect(fate(off, {}, { frames: dated('1899-01-05', 'page') })).toMatch(/^corrected/);
    expect(fate(off, {}, { frames: dated('1899-01-12', null) })).toMatch(/^corrected/);
    expect(fate({ ...off, title: 'other' }, {}, { frames: dated('1899-01-05', null) })).toMatch(/^corrected/);
    expect(fate({ ...off, edition: 2 }, {}, { frames: dated('1899-01-05', null) })).toMatch(/^corrected/);
    expect(fate({ ...off, date: null }, {}, { frames: dated('1899-01-05', null) })).toMatch(/^corrected/);
  });

  it('waits where something of its kind, or its fact, is wrong there still', () => {
    const still = 'Its frames do not agree yet; what differs there is now other-1.';
    const other = (facts: Partial<Finding>): Made => ({ findings: [finding('other-1', facts)] });
    expect(fate(GONE, {}, other({ code: 'date-differs', field: 'datePrinted' }))).toBe(still);
    expect(fate(GONE, {}, other({ code: 'page-not-delivered', field: 'deliver' }), { 5: ['date'] })).toBe(still);
    expect(fate(GONE, {}, other({ code: 'page-not-delivered', field: 'deliver' }), { 5: ['order'] })).toMatch(/^corrected/);
    expect(fate(GONE, {}, other({ at: '6' }), { 6: ['date'] })).toMatch(/^corrected/);
    // nobody explains it, and the fact differs
    expect(fate(GONE, {}, {}, { 5: ['date'] })).toBe('Its frames do not agree yet.');
    expect(fate(GONE, {}, {}, { 5: ['order'] })).toMatch(/^corrected/);
    // one that was there before and is about another fact is not it
    const beside = finding('beside-1', { code: 'edition-differs', field: 'edition' });
    expect(fate(GONE, { findings: [beside] }, { findings: [beside] })).toMatch(/^corrected/);
    expect(fate(GONE, {}, { findings: [beside] })).toBe(still.replace('other-1', 'beside-1'));
  });

  it('waits where a frame behind it came too many, if that is what it was about', () => {
    const extra = page('x', { frame: null, returned: '5b', state: 'return-only', findings: [] });
    const more = [...NINE.slice(0, 5), extra, ...NINE.slice(5)];
    expect(fate({ ...GONE, field: null }, {}, { frames: more })).toBe('Its frames do not agree yet.');
    expect(fate({ ...GONE, code: 'frame-number-gap', field: 'frame' }, {}, { frames: more })).toBe('Its frames do not agree yet.');
    expect(fate({ ...GONE, code: 'page-not-delivered', field: 'deliver' }, {}, { frames: more })).toBe('Its frames do not agree yet.');
    expect(fate(GONE, {}, { frames: more })).toMatch(/^corrected/);
    expect(fate({ ...GONE, field: null }, {}, { frames: strip(frame('5', { state: 'differs' })) })).toBe('Its frames do not agree yet.');
    expect(fate({ ...GONE, field: null }, {}, {})).toMatch(/^corrected/);
  });

  it('is required to be told only where it could keep the batch from being accepted', () => {
    const lost = { frames: strip(frame('5', { returned: null, returnedKind: null, state: 'record-only' })) };
    const required = (facts: Partial<Finding>): readonly boolean[] =>
      since(result({ findings: [{ ...GONE, ...facts }] }), result(lost)).unchecked.map((one) => one.required);
    const ruling = (decision: NonNullable<Finding['ruling']>['decision']) => ({
      ruling: { decision, note: '', by: 'Ilse', on: '2031-03-05' },
    });
    expect([required({}), required({ severity: 'critical' }), required({ severity: 'minor' })]).toEqual([[true], [true], [false]]);
    expect([required({ cause: 'film' }), required(ruling('accept-as-is')), required(ruling('vendor-corrects'))]).toEqual([
      [false],
      [false],
      [true],
    ]);
  });

  it('is kept without what only held in its own result', () => {
    const lost = { frames: strip(frame('5', { returned: null, returnedKind: null, state: 'record-only' })) };
    const { pending, unchecked } = since(result({ findings: [{ ...GONE, status: 'new', changed: 'return' }] }), result(lost));
    expect(pending[0]).toEqual(GONE);
    expect(unchecked[0]).toMatchObject({ what: `whether gone-1 of delivery ${String(EXAMPLE.run.delivery)} was corrected`, count: 1 });
  });
});

describe('what the agreement or the reading no longer asks', () => {
  const policies = EXAMPLE.agreement.policies;
  const GOVERNED: Readonly<Record<string, readonly string[]>> = {
    pageNumber: ['page'],
    unnumberedPage: ['page'],
    printedDate: ['datePrinted', 'date'],
    absentPages: ['absence'],
    absentIssues: ['absence'],
    frameNumbers: ['frame', 'number'],
    targets: ['target'],
    editionOrder: ['edition'],
    splitExposures: ['frame', 'number'],
    reelNumber: ['reel'],
    files: ['file'],
  };

  it.each(Object.entries(GOVERNED))('is no correction: %s', (policy, fields) => {
    const changed = {
      facts: { agreement: { ...EXAMPLE.agreement, policies: { ...policies, [policy]: 'otherwise' } } },
    };
    for (const field of fields)
      expect(fate({ ...GONE, field }, {}, changed)).toMatch(
        new RegExp(`^The agreement asks otherwise now: its policy "${policy}" was .* and is otherwise\\.$`),
      );
    expect(fate({ ...GONE, field: 'title' }, {}, changed)).toMatch(/^corrected/);
  });

  it('is told of each policy that changed', () => {
    expect(changedPolicies(policies, policies)).toEqual([]);
    expect(
      changedPolicies(policies, { ...policies, redelivery: 'otherwise' } as unknown as Policies).map(({ policy, is }) => [policy, is]),
    ).toEqual([['redelivery', 'otherwise']]);
  });

  it('is the text of the pages, where it was not read', () => {
    const text = 'It rests on the text of the pages, which was not read this time.';
    const code = EXAMPLE.catalogue.find(({ group }) => group === 'text')?.code ?? 'page-text-empty';
    const catalogue = [
      ...EXAMPLE.catalogue,
      { ...EXAMPLE.catalogue[0]!, code: 'page-text-empty', group: 'text' as const },
      { ...EXAMPLE.catalogue[0]!, code: 'documents-disagree', group: 'documents' as const },
    ];
    const was = { facts: { catalogue } };
    expect(fate({ ...GONE, code }, was, {}, {}, false)).toBe(text);
    expect(fate({ ...GONE, code }, was, {}, {}, true)).not.toBe(text);
    expect(fate({ ...GONE, code: 'documents-disagree', says: 'so says the page text' }, was, {}, {}, false)).toBe(text);
    expect(fate({ ...GONE, code: 'documents-disagree', says: 'so says the manifest' }, was, {}, {}, false)).not.toBe(text);
    expect(fate(GONE, was, {}, {}, false)).not.toBe(text);
    // a finding about documents rests on the text where it stands in the file of a page
    const inFile = { ...GONE, code: 'document-odd', places: [{}, { document: 'ocr/1.xml' }] as unknown as Finding['places'] };
    const odd = { ...EXAMPLE.catalogue[0]!, code: 'document-odd', group: 'documents' as const };
    const files = (path: string) => ({
      facts: { catalogue: [odd] },
      frames: strip(frame('2', { files: [{ use: 'ocr', path }] as unknown as ResultFrame['files'] })),
    });
    expect(fate(inFile, files('ocr/1.xml'), {}, {}, false)).toBe(text);
    expect(fate(inFile, files('ocr/2.xml'), {}, {}, false)).not.toBe(text);
  });

  it('is the files of pages where they were not looked at, and documents of another layout', () => {
    const unchecked = [{ what: 'page files of the batch', why: 'None came.', frames: null, places: [], count: 1, required: false }];
    expect(fate({ ...GONE, field: 'file' }, {}, { facts: { unchecked } })).toBe('None came.');
    expect(fate(GONE, {}, { facts: { unchecked } })).toMatch(/^corrected/);
    const catalogue = [...EXAMPLE.catalogue, { ...EXAMPLE.catalogue[0]!, code: 'document-odd', group: 'documents' as const }];
    expect(fate({ ...GONE, code: 'document-odd' }, { facts: { catalogue } }, { run: { profile: 'other' } })).toContain(
      'The documents are laid out otherwise now (other, before',
    );
    expect(fate(GONE, { facts: { catalogue } }, { run: { profile: 'other' } })).toMatch(/^corrected/);
  });
});

describe('what else is not as it was', () => {
  const remarks = (was: Made, now: Made): readonly string[] => since(result(was), result(now)).remarks;

  it('is said: the name of the batch, the files, the profile, policies, and what is there again', () => {
    expect(remarks({ run: files('a', 'x') }, { run: files('a', 'y') })).toEqual([]);
    expect(remarks({ run: files('a', 'x') }, { run: files('b', 'x') })).toEqual([
      "The vendor's documents are the same as in the earlier delivery, byte for byte.",
      'The collation record was changed since the earlier delivery.',
    ]);
    expect(remarks({}, { run: { batch: 'batch_renamed' } })).toEqual([
      `The earlier result is of ${EXAMPLE.run.batch}, this one of batch_renamed: taken for the same batch, because both are of the same reel.`,
    ]);
    const otherwise = {
      agreement: { ...EXAMPLE.agreement, policies: { ...EXAMPLE.agreement.policies, files: 'otherwise' } as unknown as Policies },
    };
    expect(remarks({}, { facts: otherwise })).toEqual([
      expect.stringMatching(/^The policy "files" of the agreement was .* for the earlier delivery and is otherwise now\.$/),
    ]);
    // another profile brings other policies, and that is said once
    expect(remarks({}, { run: { profile: 'other' }, facts: otherwise })).toEqual([
      `The earlier delivery was read with the profile ${EXAMPLE.run.profile}, this one with other.`,
    ]);
    expect(remarks({ facts: { corrected: [GONE] } }, { findings: [GONE] })).toEqual([
      `gone-1 had been corrected by delivery ${String(EXAMPLE.run.delivery)} and is there again.`,
    ]);
    expect(remarks({ findings: [GONE], facts: { corrected: [GONE] } }, { findings: [GONE] })).toEqual([]);
  });
});

describe('findings found again', () => {
  const ids = (was: readonly Finding[], now: readonly Finding[], run: Partial<Findings['run']> = {}) => {
    const { findings, matched } = recogniseEarlier(now, result({ findings: was, run: files('a', 'x') }), {
      ...EXAMPLE.run,
      ...files('a', 'y'),
      ...run,
    });
    return {
      status: findings.map(({ id, status }) => `${id} ${String(status)}`),
      before: [...matched.before].map(([id, one]) => `${id} ← ${one.id}`),
      gone: matched.gone.map(({ id }) => id),
      renamed: matched.renamed,
    };
  };
  const HASH = '0123456789ab';
  const named = (suffix: string, document: string, returned = 'x'): Finding =>
    finding(`date-differs-${HASH}${suffix}`, { return: returned, places: [{ document }] as unknown as Finding['places'] });

  it('by their id', () => {
    expect(ids([GONE, finding('b')], [GONE, finding('c', { at: '7' })])).toEqual({
      status: ['gone-1 open', 'c new'],
      before: ['gone-1 ← gone-1'],
      gone: ['b'],
      renamed: [],
    });
    expect(recogniseEarlier([GONE], null, EXAMPLE.run)).toMatchObject({ findings: [GONE], remarks: [] });
  });

  it('by their document and reading where several have one name, else by their number', () => {
    const was = [named('', 'a.xml'), named('-2', 'b.xml')];
    expect(ids(was, [named('', 'b.xml')]).before).toEqual([`date-differs-${HASH} ← date-differs-${HASH}-2`]);
    expect(ids(was, [named('', 'b.xml'), named('-2', 'a.xml')]).before).toEqual([
      `date-differs-${HASH} ← date-differs-${HASH}-2`,
      `date-differs-${HASH}-2 ← date-differs-${HASH}`,
    ]);
    expect(ids([named('', 'a.xml', 'x'), named('-2', 'a.xml', 'y')], [named('', 'a.xml', 'y')]).before).toEqual([
      `date-differs-${HASH} ← date-differs-${HASH}-2`,
    ]);
    expect(ids(was, [named('-2', 'c.xml')]).before).toEqual([`date-differs-${HASH}-2 ← date-differs-${HASH}-2`]);
    expect(ids(was, [named('-3', 'c.xml')]).before).toEqual([`date-differs-${HASH}-3 ← date-differs-${HASH}`]);
  });

  it('as a run of wrong numbers that begins at the same frame, under the id that they had', () => {
    const run = (id: string, field: string, from: string, facts: Partial<Finding> = {}): Finding =>
      finding(id, { field, frames: { from, to: '9' }, ...facts });
    expect(ids([run('old', 'frame', '5')], [run('new', 'number', '5')])).toMatchObject({ status: ['old open'], gone: [] });
    expect(ids([run('old', 'frame', '5')], [run('new', 'number', '6')]).status).toEqual(['new new']);
    expect(ids([run('old', 'date', '5')], [run('new', 'number', '5')]).status).toEqual(['new new']);
    expect(ids([run('old', 'frame', '5', { reel: 'A' })], [run('new', 'number', '5', { reel: 'B' })]).status).toEqual(['new new']);
    // two that begin there: nobody can tell which is which
    expect(ids([run('old', 'frame', '5')], [run('new', 'number', '5'), run('more', 'frame', '5')]).status).toEqual(['new new', 'more new']);
  });

  it('under another id where the record numbers its frames otherwise', () => {
    const dated = (id: string, facts: Partial<Finding> = {}): Finding => finding(id, { date: '1899-01-05', page: '3', ...facts });
    const changed = files('b', 'y');
    expect(ids([dated('old')], [dated('new', { at: '6' })], changed)).toMatchObject({
      status: ['new open'],
      renamed: [{ was: 'old', is: 'new' }],
      gone: [],
    });
    expect(ids([dated('old')], [dated('new', { at: '6' })]).status).toEqual(['new new']);
    for (const other of [
      { page: '4' },
      { date: '1899-01-12' },
      { title: 'x' },
      { edition: 2 },
      { field: 'page' },
      { code: 'title-differs' },
      { reel: 'B' },
      { date: null },
    ])
      expect(ids([dated('old')], [dated('new', other)], changed).status).toEqual(['new new']);
    expect(ids([dated('old', { date: null })], [dated('new', { date: null })], changed).status).toEqual(['new new']);
  });
});

describe('the frames of a finding', () => {
  const map = mapFilm(result({ frames: strip(frame('7', { findings: ['x'] })) }).reels);
  const at = (facts: Partial<Finding>): readonly string[] =>
    spotsOf(finding('x', { at: null, ...facts }), map).map((key) => key.replace('\n', ':'));

  it('are where it begins, its run or list, and those that carry it', () => {
    expect(at({})).toEqual(['00417:7']);
    expect(at({ at: '05' })).toEqual(['00417:5', '00417:7']);
    expect(at({ frames: { from: '2', to: '4' } })).toEqual(['00417:2', '00417:3', '00417:4', '00417:7']);
    expect(at({ frames: { from: '4', to: '4' } })).toEqual(['00417:4', '00417:7']);
    expect(at({ frames: { from: '4', to: '2' } })).toEqual(['00417:4', '00417:2', '00417:7']);
    expect(at({ frames: { from: '88', to: '2' } })).toEqual(['00417:88', '00417:2', '00417:7']);
    expect(at({ reel: null, frames: { from: '', to: '', list: ['00417:1', 'B:2'] } })).toEqual(['00417:1', 'B:2', '00417:7']);
    expect(at({ frames: { from: '', to: '', list: ['1', '3'] } })).toEqual(['00417:1', '00417:3', '00417:7']);
  });

  it('that came too many lie behind the frame before them, at the beginning behind none', () => {
    const extra = (returned: string): ResultFrame => page('x', { frame: null, returned, state: 'return-only', findings: ['e'] });
    const { surplus, named, order, compared } = mapFilm(
      result({ frames: [extra('0'), frame('1'), extra('1b'), frame('1'), frame('002')] }).reels,
    );
    expect([...surplus].map(([key, frames]) => [key, frames.map(({ returned }) => returned)])).toEqual([
      ['00417\n', ['0']],
      ['00417\n1', ['1b']],
    ]);
    expect([named.get('e'), order.get('00417'), [...compared]]).toEqual([['00417\n', '00417\n1'], ['00417\n1', '00417\n2'], ['00417']]);
  });
});

describe('a result that is named as an earlier or another one', () => {
  const of = (numbers: readonly string[], run: Partial<Findings['run']> = {}): Findings => ({
    ...result({ run }),
    reels: numbers.map((number) => ({ number, absent: [], frames: NINE })),
  });

  it('must be of the same reels, however they are padded, and of a delivery before', () => {
    expect(earlierMistakes(of(['00417'], { delivery: 1 }), ['417'], 2)).toEqual([]);
    expect(earlierMistakes(of([' 0A '], { delivery: 1 }), ['a'], 2)).toEqual([]);
    expect(earlierMistakes(of([], { delivery: 1 }), ['417'], 2)).toEqual([]);
    expect(earlierMistakes(of(['1', '2'], { delivery: 1, batch: 'b' }), ['417'], 2)).toEqual([
      'this is the result of b with reels 1, 2; the collation record has reel 417. It is not an earlier delivery of this batch.',
    ]);
    const many = ['1', '2', '3', '4', '5', '6'];
    expect(earlierMistakes(of(many, { delivery: 1 }), [], 2)[0]).toContain(
      'with reels 1, 2, 3, 4, 5 and 1 more; the collation record has no reel.',
    );
    expect(earlierMistakes(of(many.slice(0, 5), { delivery: 1 }), [], 2)[0]).toContain('with reels 1, 2, 3, 4, 5; the');
    expect(earlierMistakes(of(['417'], { delivery: 2 }), ['417'], 2)).toEqual([
      expect.stringContaining('this is the result of delivery 2, and the one to be verified is delivery 2.'),
    ]);
    expect(earlierMistakes(of(['417'], { delivery: 3 }), ['417'], 2)).toHaveLength(1);
  });

  it('must be of another batch and of other film', () => {
    const other = (numbers: readonly string[], batch = 'batch_other'): string | null => otherMistake(of(numbers, { batch }), of(['00417']));
    expect(other(['00418'])).toBeNull();
    expect(other(['00418'], EXAMPLE.run.batch)).toContain(`this is a result of ${EXAMPLE.run.batch}, the batch that is verified.`);
    expect(other(['00417'])).toContain('this is a result of the same film: frame 1 of reel 00417 came in batch_other too.');
    const blanks = {
      ...of(['00417'], { batch: 'batch_other' }),
      reels: [{ number: '00417', absent: [], frames: NINE.map((one) => ({ ...one, returnedKind: null })) }],
    };
    expect([
      otherMistake(blanks, of(['00417'])),
      otherMistake({ ...of(['00417']), run: blanks.run }, { ...blanks, run: EXAMPLE.run }),
    ]).toEqual([null, null]);
  });
});
