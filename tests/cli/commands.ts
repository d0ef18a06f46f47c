import { buildProgram } from '../../src/cli/program.js';

const program = buildProgram(async () => {}, {});

/** Every command of the program by its words, and whether it does something or only gathers others. */
export const commands = new Map<string, 'does something' | 'gathers'>();
const options = new Map<string, readonly string[]>([['', ['--help', '--version']]]);

function collect(command: typeof program, words: readonly string[]): void {
  for (const below of command.commands) {
    const path = [...words, below.name()];
    commands.set(path.join(' '), below.commands.length === 0 ? 'does something' : 'gathers');
    options.set(path.join(' '), [...below.options.map(({ long }) => long ?? ''), '--help']);
    collect(below, path);
  }
}
collect(program, []);

/** The long options of a command. */
export const optionsOf = (command: string): readonly string[] => options.get(command) ?? [];

/** The calls of the program in a text: what stands behind its name on a line, or between two backticks, with the command and the options in it. */
export function calls(text: string): readonly { readonly call: string; readonly command: string; readonly options: readonly string[] }[] {
  const joined = text.replace(/\\\n/g, ' ');
  return [...joined.matchAll(/(?:^ *(?:\$ )?|`|: )(reeltally (?:[a-z-][^`\n]*))/gm)].map(([, call = '']) => {
    const words = call.split('#')[0]?.split(/\s+/).slice(1) ?? [];
    const two = words.slice(0, 2).join(' ');
    const command = commands.has(two) ? two : (words[0] ?? '').startsWith('-') ? '' : (words[0] ?? '');
    return { call, command, options: words.filter((word) => /^--[a-z]/.test(word)).map((word) => word.replace(/[^a-z]+$/, '')) };
  });
}
