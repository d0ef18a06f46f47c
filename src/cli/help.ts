import { readFileSync } from 'node:fs';
import type { Command } from 'commander';
import { CODES } from '../catalogue/codes.js';
import { RECORD_COLUMNS } from '../catalogue/record-columns.js';
import { agreementHelp } from '../judge/agreement-help.js';
import { NAMED_PROFILES } from '../profiles/index.js';
import { UserMistake } from '../read/mistake.js';
import { helpEnd } from './examples.js';
import { TOPIC_NAMES } from './topic-names.js';

/** The texts of the topics: written ones, and what is made from data. */
const TOPICS: Readonly<Record<(typeof TOPIC_NAMES)[number], () => string>> = {
  agreement: () => agreementHelp(NAMED_PROFILES),
  batches: () => written('batches'),
  codes: codesHelp,
  dossier: () => written('dossier'),
  formats: () => written('formats'),
  invoice: () => written('invoice'),
  ledger: () => written('ledger'),
  profiles: () => written('profiles'),
  record: () => withColumns(written('record')),
  sampling: () => written('sampling'),
};

/** The columns of each sheet, in the place that the text has for them. */
function withColumns(text: string): string {
  return text.replace(/^<!-- columns: (.*) -->$/gm, (_, sheet: string) => {
    const columns = RECORD_COLUMNS[sheet as keyof typeof RECORD_COLUMNS];
    const rows = columns.map(({ name, means, example }) => [`\`${name}\``, means, example === '' ? '' : `\`${example}\``]);
    return markdownTable(['column', 'holds', 'example'], rows);
  });
}

/** Every code with its usual severity and what it says. */
function codesHelp(): string {
  const rows = CODES.map(({ group, code, severity, title }) => [group, `\`${code}\``, severity, title]);
  return `# The codes of findings

Every finding has a code. The severity is the usual one; an agreement may say otherwise. The codes of the group "record" are about the record itself:
"reeltally collation check" tells them before the film goes out, and "reeltally verify" names those that are still open. Those of the group "text" belong
to checks of the page text, which this version does not make.

${markdownTable(['group', 'code', 'usual severity', 'what it says'], rows)}
`;
}

function markdownTable(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  return [heads, heads.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');
}

/** A text of the folder `help`, which stands beside the folder of this file in src and in dist alike, without the marks around what is generated. */
function written(topic: string): string {
  return readFileSync(new URL(`../help/${topic}.md`, import.meta.url), 'utf8').replace(/^<!-- (?:begin|end) .* -->\n/gm, '');
}

/** The help for some words: usage of that command, then the topic of that name; the whole usage without a word. Throws UserMistake for words that are neither. */
export function helpText(program: Command, words: readonly string[]): string {
  if (words.length === 0) return `${program.helpInformation()}${helpEnd('')}`;
  const command = commandOf(program, words);
  const usage = command === null ? null : `${command.helpInformation()}${helpEnd(words.join(' '))}`;
  const word = words.length === 1 ? words[0] : undefined;
  const topic = TOPIC_NAMES.find((name) => name === word);
  if (usage === null && topic === undefined) {
    const commands = program.commands.map((command) => command.name()).join(', ');
    throw new UserMistake(`There is no help on "${words.join(' ')}". Commands: ${commands}. Topics: ${TOPIC_NAMES.join(', ')}.`);
  }
  return [usage, topic === undefined ? undefined : TOPICS[topic]()].filter((text) => text != null).join('\n');
}

function commandOf(program: Command, words: readonly string[]): Command | null {
  let at: Command = program;
  for (const word of words) {
    const next = at.commands.find((command) => command.name() === word);
    if (next === undefined) return null;
    at = next;
  }
  return at;
}
