import { describe, expect, it } from 'vitest';
import { EXAMPLE } from '../report/example.js';
import { newFolder, reeltally, savedResult } from './command.js';

describe('how the command is called', () => {
  it('shows the help on stderr when called bare, and does not pass for an accepted return', () => {
    const { status, stdout, stderr } = reeltally([]);
    expect(status).toBe(3);
    expect(stdout).toBe('');
    expect(stderr).toContain('Usage: reeltally');
    expect(stderr).toContain('Nothing was done.');
  });

  it.each([[['--help']], [['-h']], [['help']], [['help', 'render']], [['render', '--help']], [['--version']]])(
    '%j is a result on stdout with status 0',
    (args) => {
      const { status, stdout, stderr } = reeltally(args);
      expect(status).toBe(0);
      expect(stdout).toMatch(/Usage: reeltally|^\d+\.\d+\.\d+\n$/);
      expect(stderr).toBe('');
    },
  );

  it.each([
    [['wrong'], /unknown command 'wrong'/],
    [['--wrong'], /unknown option '--wrong'/],
    [['render'], /missing required argument|required option/],
    [['render', 'x.json'], /required option '--format/],
    [['render', 'x.json', '--format'], /argument missing/],
    [['render', 'x.json', 'y.json', '--format', 'text'], /no such file|too many arguments/],
    [['rendr', 'x.json'], /Did you mean render\?/],
  ])('%j is a mistake of the user: status 3 and a sentence', (args, sentence) => {
    const { status, stdout, stderr } = reeltally(args);
    expect(status).toBe(3);
    expect(stdout).toBe('');
    expect(stderr).toMatch(sentence);
    expect(stderr).not.toMatch(/^\s+at /m);
  });

  it('names a file that is not there', () => {
    const { status, stderr } = reeltally(['render', '/nowhere/findings.json', '--format', 'text']);
    expect([status, stderr]).toEqual([3, 'reeltally: /nowhere/findings.json: cannot be read: there is no such file.\n']);
  });

  it('shows controls in a file name instead of sending them to the terminal', () => {
    const { status, stderr } = reeltally(['render', '/nowhere/a\u001b[2Jb.json', '--format', 'text']);
    expect(status).toBe(3);
    expect(stderr).toContain('a\\u{1b}[2Jb.json');
    expect(stderr).not.toContain('\u001b');
  });

  it('refuses what is not a saved result', () => {
    const path = savedResult({ ...EXAMPLE, format: 'reeltally/else/1' as 'reeltally/findings/2' });
    const { status, stderr } = reeltally(['render', path, '--format', 'text']);
    expect(status).toBe(3);
    expect(stderr).toContain('reeltally/findings/2');
  });
});

describe('the format of a result', () => {
  const path = savedResult(EXAMPLE);

  it.each([
    ['text', /^RETURN FOR REWORK\n/],
    ['json', /^\{\n {2}"format": "reeltally\/findings\/2"/],
    ['csv', /^\ufeff"your file"/],
    ['xml', /^<\?xml version="1.0" encoding="UTF-8"\?>\n<discrepancies/],
  ])('%s is printed alone on stdout', (format, beginning) => {
    const { status, stdout, stderr } = reeltally(['render', path, '--format', format]);
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(beginning);
  });

  it('gives back the same bytes when a result is rendered again as JSON', () => {
    expect(reeltally(['render', path, '--format', 'json']).stdout).toBe(reeltally(['render', path, '--format', 'json']).stdout);
  });

  it.each([
    [['--format', 'pdf'], 'there is no format pdf. There are text, json, jsonl, csv, xlsx, html, xml'],
    [['--format', 'text,csv'], 'Only one format can be printed at a time'],
    [['--format', ','], '--format names no format'],
  ])('%j is refused', (options, sentence) => {
    const { status, stderr } = reeltally(['render', path, ...options]);
    expect(status).toBe(3);
    expect(stderr).toContain(sentence);
  });

  it('is not coloured in a pipe', () => {
    expect(reeltally(['render', path, '--format', 'text'], { FORCE_COLOR: '1' }).stdout).not.toContain('\u001b');
  });

  it('says nothing when asked to be quiet', () => {
    const { status, stdout, stderr } = reeltally(['render', path, '--format', 'text', 'csv', '--quiet', '--out', newFolder()]);
    expect([status, stdout, stderr]).toEqual([0, '', '']);
  });
});
