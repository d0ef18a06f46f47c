import { describe, expect, it } from 'vitest';
import type { OwnProfile } from '../../src/model/profile.js';
import { PROFILES } from '../../src/profiles/index.js';
import { UserMistake } from '../../src/read/mistake.js';
import { matchName, patternFault } from '../../src/read/name-pattern.js';
import { profileFaults, resolveProfile } from '../../src/read/profile.js';
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

  it('are refused when they could be slow, or mean nothing', () => {
    expect(patternFault('{any}-{title}-{reel}-{frame}')).toMatch(/more than two free/);
    expect(patternFault('{title}-{reel}-{frame}.{any}')).toBeNull();
    expect(patternFault('{year}')).toMatch(/unknown placeholder \{year\}/);
    expect(patternFault('{any')).toMatch(/brace/);
  });
});

describe("a library's own profile", () => {
  const own: OwnProfile = {
    format: 'reeltally/profile/1',
    name: 'our-own',
    startsFrom: 'issue-mets',
    facts: { issue: { volume: ['part/detail[@type="Band"]/number'] } },
    present: [{ text: 'vorhanden', present: true, published: 'yes' }],
    policies: { targets: 'listed' },
    names: { label: ['{date} {any}'] },
  };

  it('takes the place of the parts it names and of no others', () => {
    const [base] = PROFILES;
    const profile = resolveProfile(own, PROFILES);
    expect(profile.facts.issue.volume).toEqual(['part/detail[@type="Band"]/number']);
    expect(profile.facts.issue.date).toEqual(base!.facts.issue.date);
    expect(profile.policies).toEqual({ ...base!.policies, targets: 'listed' });
    expect(profile.names).toEqual({ ...base!.names, label: ['{date} {any}'] });
    expect(base!.name).toBe('issue-mets');
  });

  it('is used in reading', async () => {
    const document = issueDocument({
      lccn: 'x1',
      date: '1907-03-15',
      edition: '1',
      present: 'vorhanden',
      label: '1907-03-16 x',
      pages: [],
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
    expect(() => resolveProfile({ ...own, names: { pageFile: ['{x}'] } }, PROFILES)).toThrow(UserMistake);
    expect(() => resolveProfile({ ...own, reelNumber: { supplierSuffix: '(a+)+' } }, PROFILES)).toThrow(/supplierSuffix/);
  });
});
