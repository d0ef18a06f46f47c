import { rmSync } from 'node:fs';
import { expect, it } from 'vitest';
import { HELP, stepsOf, walkDesk, walked } from './walk.js';

/** What the help shows of an output and the output, told apart by lines: `[...]` in the help stands for lines that it leaves out. */
function shownOf(prints: readonly string[], said: readonly string[]): readonly string[] {
  const parts = prints
    .join('\n')
    .trimEnd()
    .split('\n[...]')
    .map((part) => part.replace(/^\n/, '').split('\n'));
  const shown: string[] = [];
  let at = 0;
  parts.forEach((part, index) => {
    const isLast = index === parts.length - 1;
    if (index > 0) shown.push('[...]');
    if (part.join('') === '') return;
    const begin = isLast && index > 0 ? said.length - part.length : index === 0 ? 0 : said.indexOf(part[0] ?? '', at);
    const end = begin + part.length;
    shown.push(...(index === 0 && isLast ? said : said.slice(Math.max(at, begin), end)));
    at = end;
  });
  return shown;
}

it('the walk in the help, from a drive in the post to a paid invoice, is what happens', { timeout: 300_000 }, () => {
  const steps = stepsOf(HELP);
  const commands = steps.filter((step) => 'command' in step);
  expect(commands.length).toBeGreaterThan(12);
  // One path is typed for each delivery: that of its drive.
  expect(
    commands
      .filter(({ command }) => command.startsWith('verify ') || command.startsWith('sample '))
      .flatMap(({ command }) => command.match(/\.\.\/\S+/g) ?? []),
  ).toEqual(['../drive-1/batch_vzx_tolmouth', '../drive-2/batch_vzx_tolmouth']);
  const desk = walkDesk();
  const said = walked(steps, desk);
  rmSync(desk, { recursive: true });
  commands.forEach(({ command, prints }, at) => {
    const lines = prints.length === 0 ? [] : prints.join('\n').trimEnd().split('\n');
    if (command.startsWith('cd ')) return;
    expect([command, ...shownOf(lines, said[at] ?? [])]).toEqual([command, ...lines]);
  });
});
