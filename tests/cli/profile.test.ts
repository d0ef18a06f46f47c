import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { NAMED_PROFILES } from '../../src/profiles/index.js';
import { resolveProfile } from '../../src/read/profile.js';
import { reeltally } from './command.js';
import { HELP, LANTERN, lantern, verdictOf, written } from './lantern.js';

describe('reeltally profile show', () => {
  it.each(NAMED_PROFILES.map((profile) => [profile.name, profile] as const))(
    '%s is complete: read again it is the same profile',
    (name, profile) => {
      const { status, stdout } = reeltally(['profile', 'show', name]);
      expect(status).toBe(0);
      const own = JSON.parse(stdout) as Parameters<typeof resolveProfile>[0];
      expect(own.startsFrom).toBe('nothing');
      expect(resolveProfile(own, NAMED_PROFILES)).toEqual({ ...profile, own: true });
    },
  );

  it('names the profiles there are', () => {
    const { status, stderr } = reeltally(['profile', 'show', 'ours']);
    expect(status).toBe(3);
    expect(stderr).toMatch(/no profile ours\. Built in are issue-mets, page-mods, two-maps, linked-maps/);
  });
});

describe('the walk through the help, from an empty file to a verdict', () => {
  it('finds everything that must be there', () => {
    const folder = lantern();
    const { status, stdout, stderr } = reeltally([
      'profile',
      'try',
      join(folder, 'lantern.json'),
      '--batch',
      join(folder, 'lantern-batch'),
    ]);
    expect(stderr).toBe('');
    expect(status).toBe(0);
    for (const line of [
      'Documents: 1 issue document, 0 reel documents.',
      'Parts: 1 issue, 2 pages, 0 targets, 0 reels.',
      'issue titleId (must): found for 1 of 1 issue',
      '  in section identifier[@type=paper]: once in 1 document, such as "LANT"',
      '  again in document @LABEL with {any}, {date}: once in 1 document, such as "15.3.1907"',
      '  again in document-name with {any}_{day}.xml: once in 1 document, such as "19070315"',
      '  in division @ORDERLABEL: 2 times in 1 document, such as "1", "2"',
      'page frame (may): counted on for 2 pages',
      '  archive (where-held): named 2 times, 2 of them in the batch',
      'Everything that must be there was found.',
    ])
      expect(stdout.split('\n')).toContain(line);
  });

  it('says what is not found, and where it was looked for', () => {
    const folder = lantern(LANTERN.replace('type="paper"', 'type="other"').replace('ORDER="2" ', ''));
    const { status, stdout } = reeltally(['profile', 'try', join(folder, 'lantern.json'), '--batch', join(folder, 'lantern-batch')]);
    expect(status).toBe(1);
    expect(stdout).toContain('issue titleId (must): not found  <-- must be there\n    looked for in section identifier[@type=paper]');
    expect(stdout).toContain('page order (must): found for 1 of 2 pages  <-- must be there');
    expect(stdout).toContain(
      'Not as the profile says: issue titleId must be stated and was not found; page order must be stated and was found once only.',
    );
  });

  it('accepts what agrees, whatever the frames are numbered', () => {
    const { findings, verdict } = verdictOf(lantern());
    expect(findings.map(({ code, says }) => [code, says])).toEqual([]);
    expect(verdict.decision).toBe('accept');
  });

  it.each([
    ['a date', LANTERN.replace('<dateIssued>15.3', '<dateIssued>16.3').replace(', 15.3', ', 16.3'), 'date-differs'],
    ['a label', LANTERN.replace('ORDERLABEL="2"', 'ORDERLABEL="4"'), 'page-number-differs'],
    ['an issue number', LANTERN.replace('>75<', '>76<'), 'issue-number-differs'],
    ['a file that a page does not name', LANTERN.replace('<fptr FILEID="f2"/>', ''), 'file-missing'],
    ['two pages that name one file', LANTERN.replace('FILEID="f2"/>', 'FILEID="f1"/>'), 'same-image-twice'],
    ['another date in the label', LANTERN.replace(', 15.3', ', 14.3'), 'documents-disagree'],
  ])('finds %s', (_, document, code) => {
    expect(verdictOf(lantern(document)).findings.map((finding) => finding.code)).toContain(code);
  });
});

describe('reeltally help', () => {
  it('prints a topic, a command with its usage, and a command of a command', () => {
    expect(reeltally(['help', 'profiles']).stdout).toBe(HELP);
    expect(reeltally(['help', 'profile', 'try']).stdout).toContain('Usage: reeltally profile try');
    expect(reeltally(['help', 'agreement']).stdout).toContain('reeltally/agreement/');
  });

  it('says what there is help on', () => {
    const { status, stderr } = reeltally(['help', 'weather']);
    expect(status).toBe(3);
    expect(stderr).toMatch(/no help on "weather"\. Commands: verify, .*Topics: agreement, batches, codes, .*sampling\./);
  });
});

describe('a profile of the first version', () => {
  it('is refused by name', () => {
    const folder = written({ 'old.json': '{"format":"reeltally/profile/1","name":"old","startsFrom":"issue-mets"}' });
    const { status, stderr } = reeltally(['profile', 'try', join(folder, 'old.json'), '--batch', folder]);
    expect(status).toBe(3);
    expect(stderr).toContain('reeltally/profile/1');
    expect(stderr).toContain('reeltally/profile/2');
  });
});

it('the help names every field of a profile', () => {
  const own = JSON.parse(reeltally(['profile', 'show', 'issue-mets']).stdout) as Readonly<Record<string, unknown>>;
  for (const field of [...Object.keys(own), ...Object.keys(own['facts'] as object), ...Object.keys(own['folders'] as object)])
    expect([field, HELP.includes(`\`${field}\``)]).toEqual([field, true]);
});
