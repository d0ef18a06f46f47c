import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CODES } from '../../src/catalogue/codes.js';
import { TOPIC_NAMES } from '../../src/cli/topic-names.js';
import { FORMATS } from '../../src/report/formats.js';
import { reeltally } from './command.js';
import { calls, commands, optionsOf } from './commands.js';

const README = readFileSync('README.md', 'utf8');
/** Each topic as it is printed. */
const HELP = new Map(TOPIC_NAMES.map((topic) => [topic, reeltally(['help', topic]).stdout]));

describe('every call of the program in a text', () => {
  it.each([['README.md', README] as const, ...HELP])('%s: is one that there is, with options that it takes', (_, text) => {
    for (const { call, command, options } of calls(text)) {
      expect([...commands.keys(), ''], call).toContain(command);
      for (const option of options) expect(optionsOf(command), call).toContain(option);
    }
  });

  it('is found by this test: those of the README', () => {
    expect(calls(README).length).toBeGreaterThan(10);
  });
});

describe('the help of a command', () => {
  it.each([...commands.keys()].filter((words) => commands.get(words) === 'does something'))(
    '%s ends in two calls of its own or more',
    (words) => {
      const { stdout } = reeltally([...words.split(' '), '--help']);
      const [, examples = ''] = stdout.split('\nExamples:\n');
      const own = calls(examples).filter(({ command }) => command === words);
      expect(own.length).toBeGreaterThanOrEqual(2);
      expect(reeltally(['help', ...words.split(' ')]).stdout).toContain(`\nExamples:\n${examples}`);
      for (const { call, options } of own) for (const option of options) expect(optionsOf(words), call).toContain(option);
    },
  );
});

describe('the help topics', () => {
  it('have every format with its file, and every code', () => {
    // the columns of a table are laid out
    const formats = HELP.get('formats')?.replaceAll(/ +/g, ' ');
    for (const { name, file } of FORMATS) expect(formats).toContain(`| \`${name}\` | \`${file}\` |`);
    for (const { code, severity, title } of CODES) expect(HELP.get('codes')).toContain(`| \`${code}\` | ${severity} | ${title} |`);
  });

  it('hold nothing that is meant for the one who writes them', () => {
    for (const text of HELP.values()) expect(text).not.toContain('<!--');
  });
});
