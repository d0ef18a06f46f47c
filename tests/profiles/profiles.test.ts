import { describe, expect, it } from 'vitest';
import type { OwnProfile } from '../../src/model/profile.js';
import { PROFILES } from '../../src/profiles/index.js';
import { profileFaults } from '../../src/read/facts/profile-faults.js';
import { UserMistake } from '../../src/read/mistake.js';
import { matchName, patternFault } from '../../src/read/name-pattern.js';
import { resolveProfile } from '../../src/read/profile.js';
import { issueDocument } from '../read/documents.js';
import { folderWith } from '../read/folder.js';
import { sideOf } from '../read/reading.js';

describe('the built-in profiles', () => {
  it.each(PROFILES.map((profile) => [profile.name, profile] as const))(
    '%s has only paths and patterns that can be read',
    (_name, profile) => {
      expect(profileFaults(profile)).toEqual([]);
    },
  );

  // Wordings: rows 2C-9 and 2D-6 of the Danish appendices; the US ones differ by one letter.
  it.each(PROFILES.map((profile) => [profile.name, profile] as const))('%s knows the four wordings', (_name, profile) => {
    expect(profile.present.map(({ present, published }) => `${String(present)} ${published}`)).toEqual([
      'true yes',
      'false yes',
      'false no',
      'false unknown',
    ]);
  });
});

describe('name patterns', () => {
  it.each([
    ['{day}{edition}', '1921100101', { day: '19211001', edition: '01' }],
    ['{frame}.{any}', '0683.jp2', { frame: '0683', any: 'jp2' }],
    [
      '{title}-{date}-{edition}-{frame}.mods.xml',
      'fjord-posten-1860-10-18-01-0010A.MODS.xml',
      { title: 'fjord-posten', date: '1860-10-18', edition: '01', frame: '0010A' },
    ],
    ['{any}, {date}, {label}', 'The Post, Daily, 1905-01-31, Evening', { any: 'The Post, Daily', date: '1905-01-31', label: 'Evening' }],
  ])('%j reads %j', (pattern, name, parts) => {
    expect(Object.fromEntries(matchName(name, [pattern]) ?? [])).toEqual(parts);
  });

  it('fit the whole name or not at all, and take their other characters as they stand', () => {
    expect(matchName('x19211001', ['{day}'])).toBeNull();
    expect(matchName('0001xtif', ['{frame}.tif'])).toBeNull();
    expect(matchName('a(b', ['{any}(b'])?.get('any')).toBe('a');
  });

  it('take time that grows with the name and no faster', () => {
    const hostile = `${'1-'.repeat(1990)}x`;
    const pattern = '{any}-{title}-{label}-{batch}-{any}-{frame}-{this}-{edition}.xml';
    const started = performance.now();
    for (let time = 0; time < 20; time += 1) expect(matchName(hostile, [pattern, `{any}${pattern.slice(5)}`])).toBeNull();
    expect(performance.now() - started).toBeLessThan(2000);
    expect(matchName('1-'.repeat(1990), ['{any}-{title}-{label}-{batch}-{number}-'])?.get('number')).toBe('1');
  });

  it.each([
    ['{any} {date}', 'No. 12 1.4.1814', 'D.M.YYYY', '1.4.1814'],
    ['{date}', '01/04/1814', 'DD/MM/YYYY', '01/04/1814'],
    ['{date}', '1814-4', 'YYYY-M', '1814-4'],
  ])('%j reads %j with a date like %s', (pattern, text, shape, date) => {
    expect(matchName(text, [pattern], { shape })?.get('date')).toBe(date);
  });

  it('know the folder of the document, and a reel number by its digit', () => {
    expect(matchName('0028065419A_1.xml', ['{folder}_{number}.xml'], { folder: '0028065419a' })).not.toBeNull();
    expect(matchName('other.xml', ['{folder}.xml'], { folder: '17' })).toBeNull();
    expect(matchName('Microfilm reel 17', ['{reel}'])).toBeNull();
    expect(matchName('Microfilm reel 17', ['{any} {reel}'])?.get('reel')).toBe('17');
    expect(matchName('unnumbered', ['{reel}'])).toBeNull();
  });

  it('are refused when they mean nothing', () => {
    expect(patternFault('{year}')).toMatch(/unknown placeholder \{year\}/);
    expect(patternFault('{any')).toMatch(/brace/);
  });
});

describe("a library's own profile", () => {
  const own: OwnProfile = {
    format: 'reeltally/profile/2',
    name: 'our-own',
    startsFrom: 'issue-mets',
    facts: {
      issue: {
        volume: ['part/detail[@type="Band"]/number'],
        date: { copies: [{ in: 'document', path: '@LABEL', pattern: '{date} {any}' }] },
      },
    },
    present: [{ text: 'vorhanden', present: true, published: 'yes' }],
    policies: { targets: 'listed' },
  };

  it('takes the place of the parts it names and of no others', () => {
    const [base] = PROFILES;
    const profile = resolveProfile(own, PROFILES);
    expect(profile.facts.issue.volume).toEqual({ sources: ['part/detail[@type="Band"]/number'], needs: 'must' });
    expect(profile.facts.issue.date?.sources).toEqual(base!.facts.issue.date?.sources);
    expect(profile.facts.issue.date?.copies).toHaveLength(1);
    expect(profile.facts.issue.edition).toEqual(base!.facts.issue.edition);
    expect(profile.policies).toEqual({ ...base!.policies, targets: 'listed' });
    expect(profile.documents).toEqual(base!.documents);
    expect(base!.name).toBe('issue-mets');
  });

  it('is used in reading', async () => {
    const document = issueDocument({
      lccn: 'x1',
      date: '1907-03-15',
      edition: '1',
      present: 'vorhanden',
      label: '1907-03-16 x',
      pages: [{ order: '1', reel: '17', frame: '1', present: 'vorhanden' }],
    });
    const side = await sideOf(
      folderWith({
        '1907031501.xml': document.replace(
          '<mods:relatedItem',
          '<mods:part><mods:detail type="Band"><mods:number>IV</mods:number></mods:detail></mods:part><mods:relatedItem',
        ),
      }),
      [resolveProfile(own, PROFILES)],
    );
    expect(side.problems).toEqual([]);
    expect(side.issues[0]).toMatchObject({ volume: 'IV' });
    expect(side.issues[0]!.copies.find((copy) => copy.source === 'LABEL')?.value).toBe('1907-03-16');
  });

  it('is refused with the part that cannot be used', () => {
    expect(() => resolveProfile({ ...own, facts: { page: { frame: ['//identifier'] } } }, PROFILES)).toThrow(
      /facts\.page\.frame: The path "\/\/identifier" cannot be read/,
    );
    expect(() => resolveProfile({ ...own, folders: { issue: ['{x}'] } }, PROFILES)).toThrow(UserMistake);
    expect(() => resolveProfile({ ...own, facts: { issue: { date: { shape: 'D.M.YY' } } } }, PROFILES)).toThrow(
      /"D\.M\.YY" is no way to write a date/,
    );
    expect(() => resolveProfile({ ...own, facts: { issue: { date: [{ in: 'folder', up: 1, pattern: '{any}' }] } } }, PROFILES)).toThrow(
      /facts\.issue\.date: no pattern of "\{any\}" holds \{this\} or \{date\}/,
    );
    expect(() => resolveProfile({ ...own, facts: { issue: { volume: { copies: ['x'] } } } }, PROFILES)).toThrow(
      /copies can be compared for/,
    );
    expect(() => resolveProfile({ ...own, facts: { page: { order: [{ in: 'count' }] } } }, PROFILES)).toThrow(/only the frame number/);
    expect(() => resolveProfile({ ...own, startsFrom: 'nothing' }, PROFILES)).toThrow(/starts from nothing, so it must say its "layout"/);
    expect(() => resolveProfile({ ...own, startsFrom: 'other' }, PROFILES)).toThrow(/can start from issue-mets, page-mods.*, nothing/);
    expect(() => resolveProfile({ ...own, reelNumber: { supplierSuffix: '(a+)+' } }, PROFILES)).toThrow(/supplierSuffix/);
  });
});
