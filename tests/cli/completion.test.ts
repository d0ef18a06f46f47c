import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newFolder, reeltally } from './command.js';
import { commands, optionsOf } from './commands.js';

const script = join(newFolder(), 'reeltally.bash');
writeFileSync(script, reeltally(['completion', 'bash']).stdout);

/** What bash offers for the last of these words. */
function offered(...words: readonly string[]): readonly string[] {
  const text = `source "$0"; COMP_WORDS=(reeltally "$@"); COMP_CWORD=$#; _reeltally; printf '%s\\n' "\${COMPREPLY[@]}"`;
  return spawnSync('bash', ['-c', text, script, ...words], { encoding: 'utf8' })
    .stdout.split('\n')
    .filter((word) => word !== '');
}

describe('completion in bash', () => {
  it.each([
    [['colla'], ['collation']],
    [
      ['collation', 'c'],
      ['check', 'convert'],
    ],
    [['sample', 'draw', '--pl'], ['--plan']],
    [
      ['verify', '--collation', 'reel 12.csv', '--bat'],
      ['--batch', '--batches'],
    ],
    [
      ['help', 'sam'],
      ['sample', 'sampling'],
    ],
    [['collation', 'check', 'convert', '--t'], []],
  ])('%j gives %j', (words, expected) => {
    expect(offered(...words)).toEqual(expected);
  });

  it('offers every command and every option', () => {
    for (const words of commands.keys()) {
      const path = words.split(' ');
      expect(offered(...path.slice(0, -1), path.at(-1) ?? '')).toContain(path.at(-1));
      for (const option of optionsOf(words)) expect(offered(...path, option)).toContain(option);
    }
  });
});

describe('completion in other shells', () => {
  it.each(['zsh', 'fish'])('%s knows every command and option', (shell) => {
    const { status, stdout } = reeltally(['completion', shell]);
    expect(status).toBe(0);
    for (const words of commands.keys()) {
      expect(stdout).toContain(words.split(' ').at(-1));
      for (const option of optionsOf(words)) expect(stdout).toContain(shell === 'fish' ? `-l ${option.slice(2)} ` : option);
    }
  });

  it('is not made for a shell that is not known', () => {
    const { status, stderr } = reeltally(['completion', 'tcsh']);
    expect([status, stderr]).toEqual([3, expect.stringContaining('There is no completion for "tcsh". There are bash, zsh, fish.')]);
  });
});
