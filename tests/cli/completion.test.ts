import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newFolder, reeltally } from './command.js';
import { commands, optionsOf } from './commands.js';

const script = join(newFolder(), 'reeltally.bash');
writeFileSync(script, reeltally(['completion', 'bash']).stdout);

/** What bash offers for the last word of each line; one bash for all of them. */
function offeredFor(lines: readonly (readonly string[])[]): readonly (readonly string[])[] {
  const one = `COMP_WORDS=(reeltally "$@"); COMP_CWORD=$#; COMPREPLY=(); _reeltally; printf '%s\\t' "\${COMPREPLY[@]}"; printf '\\n'`;
  const calls = lines.map((words) => `offer ${words.map((word) => `'${word}'`).join(' ')}`);
  const text = [`source "$0"`, `offer() { ${one}; }`, ...calls].join('\n');
  const { stdout } = spawnSync('bash', ['-c', text, script], { encoding: 'utf8' });
  return stdout
    .trimEnd()
    .split('\n')
    .map((line) => line.split('\t').filter((word) => word !== ''));
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
    expect(offeredFor([words])).toEqual([expected]);
  });

  it('offers every command and every option', () => {
    const asked = [...commands.keys()].flatMap((words) => {
      const path = words.split(' ');
      return [path, ...optionsOf(words).map((option) => [...path, option])];
    });
    const offered = offeredFor(asked);
    expect(asked.length).toBeGreaterThan(100);
    expect(asked.map((words, at) => [words, offered[at]?.includes(words.at(-1) ?? '')])).toEqual(asked.map((words) => [words, true]));
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
