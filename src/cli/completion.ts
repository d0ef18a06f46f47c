import type { Command } from 'commander';
import { UserMistake } from '../read/mistake.js';
import { print } from './streams.js';
import { TOPIC_NAMES } from './topic-names.js';

/** What may follow some words: the commands below, and the options. */
interface Place {
  readonly words: string;
  readonly next: readonly { readonly word: string; readonly means: string }[];
}

/** Every command by the words that lead to it, with what may follow. */
function places(command: Command, words: readonly string[] = [], all: Command = command): readonly Place[] {
  const helped = words.join(' ') === 'help';
  const below = (helped ? all : command).commands.map((one) => ({ word: one.name(), means: one.description() }));
  const options = [...command.options, ...(words.length === 0 ? [] : [HELP])].map((one) => ({
    word: one.long ?? '',
    means: one.description,
  }));
  const topics = helped ? TOPIC_NAMES.map((topic) => ({ word: topic, means: 'a topic' })) : [];
  const here = { words: words.join(' '), next: [...below, ...topics, ...options].filter(({ word }) => word !== '') };
  return [here, ...command.commands.flatMap((one) => places(one, [...words, one.name()], all))];
}

const HELP = { long: '--help', description: 'print this help' };

const quoted = (text: string): string => `'${text.replaceAll("'", "'\\''")}'`;

/** The words of every command, as alternatives of a `case` in a shell. */
function commandCases(all: readonly Place[]): string {
  return all.flatMap(({ words }) => (words === '' ? [] : quoted(words))).join(' | ');
}

/** For bash: commands and options by the words before; file names wherever neither fits. */
function forBash(all: readonly Place[]): string {
  const cases = all.map(({ words, next }) => `    ${quoted(words)}) next=${quoted(next.map(({ word }) => word).join(' '))} ;;`);
  return `# Completion of reeltally for bash: reeltally completion bash > ~/.local/share/bash-completion/completions/reeltally
_reeltally() {
  local word words='' next='' i
  for ((i = 1; i < COMP_CWORD && i < 3; i++)); do
    word=\${COMP_WORDS[i]}
    case "\${words:+$words }$word" in
      ${commandCases(all)}) words="\${words:+$words }$word" ;;
      *) break ;;
    esac
  done
  case "$words" in
${cases.join('\n')}
  esac
  COMPREPLY=($(compgen -W "$next" -- "\${COMP_WORDS[COMP_CWORD]}"))
}
complete -o default -F _reeltally reeltally
`;
}

/** For zsh, which runs the completion of bash by its own means. */
function forZsh(all: readonly Place[]): string {
  return `#compdef reeltally
# Completion of reeltally for zsh: reeltally completion zsh > a file named _reeltally in a folder of $fpath
_reeltally() {
  local words_so_far='' word
  local -a next
  for word in \${words[2,CURRENT-1]}; do
    case "\${words_so_far:+$words_so_far }$word" in
      ${commandCases(all)}) words_so_far="\${words_so_far:+$words_so_far }$word" ;;
      *) break ;;
    esac
  done
  case "$words_so_far" in
${all.map(({ words, next }) => `    ${quoted(words)}) next=(${next.map(({ word, means }) => quoted(`${word}:${means}`)).join(' ')}) ;;`).join('\n')}
  esac
  _describe 'reeltally' next
  _files
}
if [ "$funcstack[1]" = _reeltally ]; then _reeltally "$@"; else compdef _reeltally reeltally; fi
`;
}

/** For fish: each word with what it means, where the words before are those of its command. */
function forFish(all: readonly Place[]): string {
  const seen = (words: string): string =>
    words
      .split(' ')
      .map((word) => `__fish_seen_subcommand_from ${word}`)
      .join('; and ');
  const lines = all.flatMap(({ words, next }) => {
    const below = next.filter(({ word }) => !word.startsWith('--')).map(({ word }) => word);
    const not = below.length === 0 ? '' : `; and not __fish_seen_subcommand_from ${below.join(' ')}`;
    const when = words === '' ? '__fish_use_subcommand' : `${seen(words)}${not}`;
    return next.map(({ word, means }) =>
      word.startsWith('--')
        ? `complete -c reeltally -n ${quoted(words === '' ? '__fish_use_subcommand' : seen(words))} -l ${word.slice(2)} -d ${quoted(means)}`
        : `complete -c reeltally -n ${quoted(when)} -f -a ${word} -d ${quoted(means)}`,
    );
  });
  return `# Completion of reeltally for fish: reeltally completion fish > ~/.config/fish/completions/reeltally.fish\n${lines.join('\n')}\n`;
}

const SHELLS = { bash: forBash, zsh: forZsh, fish: forFish };

/** Prints what a shell needs to complete commands and options. Throws UserMistake for another shell. */
export async function completionCommand(program: Command, shell: string): Promise<number> {
  if (!Object.hasOwn(SHELLS, shell))
    throw new UserMistake(`There is no completion for "${shell}". There are ${Object.keys(SHELLS).join(', ')}.`);
  await print(SHELLS[shell as keyof typeof SHELLS](places(program)));
  return 0;
}
