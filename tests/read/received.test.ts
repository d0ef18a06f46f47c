import { describe, expect, it } from 'vitest';
import { newReceived } from '../../src/read/received/ledger.js';

describe('the account of everything that came', () => {
  it('counts each thing once, under its gravest fate', () => {
    const received = newReceived();
    received.document('batch.xml', 'compared');
    received.document('17/1907031501/1907031501.xml', 'unchecked');
    received.document('17/1907031501/1907031501.xml', 'found');
    received.file('17/1907031501/1907031501.xml', 'unchecked');
    received.file('17/1907031501/0003.jp2', 'unchecked');
    received.section('a.xml', 'p1', 'metadata', 'compared');
    received.section('a.xml', 'p1', 'file', 'unchecked');
    received.folder('17', 'compared');
    expect(received.tally()).toEqual({
      folders: { came: 1, compared: 1, found: 0, unchecked: 0 },
      documents: { came: 2, compared: 1, found: 1, unchecked: 0 },
      sections: { came: 2, compared: 1, found: 0, unchecked: 1 },
      files: { came: 3, compared: 1, found: 1, unchecked: 1 },
    });
  });

  it('gathers what was not compared by what is to be said of it', () => {
    const received = newReceived();
    const about = { what: 'checksum lists', why: 'not part of the layout' };
    received.file('a/md5.txt', 'unchecked', about);
    received.file('b/md5.txt', 'unchecked', { ...about });
    received.file('b/readme.txt', 'unchecked');
    received.section('a.xml', 'p9', 'metadata', 'unchecked');
    expect(received.unchecked()).toEqual([
      { class: 'sections', about: null, things: [{ document: 'a.xml', element: 'p9' }] },
      { class: 'files', about, things: [{ document: 'a/md5.txt' }, { document: 'b/md5.txt' }] },
      { class: 'files', about: null, things: [{ document: 'b/readme.txt' }] },
    ]);
  });
});
