import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { clockFaults, isBefore, type JournalEntry, journalFaults, newest, type ReadLine, tiedLines } from '../../src/dossier/journal.js';
import { staleLock } from '../../src/dossier/stale-lock.js';
import type { JournalLine } from '../../src/model/dossier.js';

const digest = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');
const entry = (name: string, at = '2031-03-04T09:00:00Z'): JournalEntry => ({
  name,
  sha256: digest(name),
  did: 'written',
  at,
  by: 'ilse',
  version: '1',
  from: [],
});
const read = (texts: readonly string[]): readonly ReadLine[] =>
  texts.map((text, at) => ({ number: at + 1, text, line: text.startsWith('{') ? (JSON.parse(text) as JournalLine) : null }));
const faults = (texts: readonly string[]): readonly string[] => journalFaults(read(texts), 'journal.jsonl', digest);

describe('the journal', () => {
  const texts = tiedLines(
    ['a.json', 'b.json', 'c.json'].map((name) => entry(name)),
    '',
    digest,
  );

  it('is whole as it was written, and whole where it was continued', () => {
    expect(faults(texts)).toEqual([]);
    expect(faults([...texts, ...tiedLines([entry('d.json')], texts[2]!, digest)])).toEqual([]);
    expect(JSON.parse(texts[0]!)).toMatchObject({ format: 'reeltally/journal/1', name: 'a.json', before: '' });
    expect(JSON.parse(texts[1]!)).toMatchObject({ before: digest(texts[0]!) });
  });

  it('says which line was changed, cut off, left out or put in', () => {
    expect(faults([texts[0]!, texts[1]!.replace('ilse', 'teo'), texts[2]!])).toEqual([
      'journal.jsonl, line 2 (b.json): the line was changed after it was written.',
      'journal.jsonl, line 3: line 2 is not the one that stood here when this line was written.',
    ]);
    expect(faults([texts[0]!, texts[2]!])).toEqual([
      'journal.jsonl, line 2: line 1 is not the one that stood here when this line was written.',
    ]);
    expect(faults(texts.slice(1))).toEqual(['journal.jsonl, line 1: the lines before this one are gone.']);
    expect(faults(['cut off'])).toEqual(['journal.jsonl, line 1: this is not a line of a journal: something was changed or cut off here.']);
  });

  it('has the newest line of each file', () => {
    const lines = read([...texts, 'cut off', ...tiedLines([entry('a.json', '2031-03-05T09:00:00Z')], '', digest)]);
    expect([...newest(lines)].map(([name, { at }]) => `${name} ${at.slice(0, 10)}`)).toEqual([
      'a.json 2031-03-05',
      'b.json 2031-03-04',
      'c.json 2031-03-04',
    ]);
  });

  it('goes back in time only where the clocks of two machines differ by more than an hour', () => {
    expect(isBefore('2031-03-04T08:00:00Z', '2031-03-04T09:00:00Z')).toBe(false);
    expect(isBefore('2031-03-04T07:59:00Z', '2031-03-04T09:00:00Z')).toBe(true);
    expect(isBefore('2031-03-03T23:30:00Z', '2031-03-04T01:00:00Z')).toBe(true);
    expect(isBefore('2031-03-04T10:00:00Z', '2031-03-04T09:00:00Z')).toBe(false);
    const lines = read(
      tiedLines(
        [entry('a.json', '2031-03-04T09:00:00Z'), entry('b.json', '2031-03-03T09:00:00Z'), entry('c.json', '2031-03-03T09:30:00Z')],
        '',
        digest,
      ),
    );
    expect(clockFaults(lines, 'journal.jsonl')).toEqual([
      'journal.jsonl, line 2 (b.json): written after line 1, which is of 2031-03-04T09:00:00Z, and dated 2031-03-03T09:00:00Z: one of the two clocks was wrong.',
    ]);
    expect(clockFaults([{ number: 1, text: '', line: null }, ...lines.slice(1)], 'journal.jsonl')).toEqual([]);
    expect(clockFaults([lines[0]!, { number: 2, text: '', line: null }], 'journal.jsonl')).toEqual([]);
  });
});

describe('a lock that was left behind', () => {
  const lock = { format: 'reeltally/lock/1', who: 'teo', host: 'desk-5', pid: 7, since: '2031-03-03T20:30:00Z' } as const;
  const here = (now: string, host = 'desk-3', runs = false) => ({ host, now, runs: () => runs });

  it('is one whose process has ended on this machine, or that is older than twelve hours', () => {
    expect(staleLock(lock, here('2031-03-03T20:31:00Z', 'desk-5'))).toBe(
      'the lock of teo on desk-5 since 2031-03-03T20:30:00Z was left behind: that run has ended. It was taken away.',
    );
    expect(staleLock(lock, here('2031-03-03T20:31:00Z', 'desk-5', true))).toBeNull();
    expect(staleLock(lock, here('2031-03-03T20:31:00Z'))).toBeNull();
    expect(staleLock(lock, here('2031-03-04T08:30:00Z'))).toBeNull();
    expect(staleLock({ ...lock, who: '' }, here('2031-03-04T08:31:00Z'))).toBe(
      'the lock of somebody on desk-5 since 2031-03-03T20:30:00Z was left behind: no run takes so long. It was taken away.',
    );
  });
});
