// Writes src/report/html/embedded.ts from the script in src/report/html/client and the style sheets in src/report/html/style, with their digests,
// which the report's security policy names. With --check it writes nothing and fails where the file is out of date.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const folder = join(root, 'src', 'report', 'html');
const target = join(folder, 'embedded.ts');

/** The files of the script, each after those that it needs. A type alone needs nothing. */
function inOrder(path, seen = new Set()) {
  if (seen.has(path)) return [];
  seen.add(path);
  const source = readFileSync(path, 'utf8');
  const needed = ts.preProcessFile(source).importedFiles.filter(({ pos }) => !/import type[^;]*$/.test(source.slice(0, pos)));
  return [...needed.flatMap(({ fileName }) => inOrder(join(dirname(path), fileName.replace(/\.js$/, '.ts')), seen)), path];
}

/** One script without modules. A function keeps its names to itself, and two of the same name are refused. */
function script() {
  const names = new Map();
  const texts = inOrder(join(folder, 'client', 'main.ts')).map((path) => {
    if (relative(join(folder, 'client'), path).startsWith('..')) throw new Error(`${path} is no part of the script: import its types alone.`);
    const { outputText } = ts.transpileModule(readFileSync(path, 'utf8'), {
      compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ES2022, removeComments: true, verbatimModuleSyntax: true },
    });
    for (const statement of ts.createSourceFile('a.js', outputText, ts.ScriptTarget.ES2022, true).statements) {
      const declared = ts.isVariableStatement(statement) ? statement.declarationList.declarations : [statement];
      for (const { name } of declared) {
        if (name === undefined) continue;
        if (names.has(name.text)) throw new Error(`${name.text} is declared in ${names.get(name.text)} and in ${path}.`);
        names.set(name.text, path);
      }
    }
    return outputText.replace(/^import [^;]*;\n/gm, '').replace(/^export (?=function|const)/gm, '').trim();
  });
  const text = `(() => {\n'use strict';\n${texts.join('\n')}\n})();\n`;
  if (/^(import|export)\b/m.test(text)) throw new Error('Something of the modules is left in the script.');
  return text;
}

/** In the order in which a later rule may overrule an earlier one. */
const STYLES = ['ground', 'findings', 'film', 'calendar', 'page-counts', 'workbench', 'decisions', 'print'];

function style() {
  const text = STYLES.map((name) => readFileSync(join(folder, 'style', `${name}.css`), 'utf8')).join('\n').replaceAll(/\/\*[\s\S]*?\*\//g, '');
  return `${text.split('\n').map((line) => line.trim()).filter((line) => line !== '').join('\n')}\n`;
}

function constant(name, what, text) {
  if (/<\/|<!--/.test(text)) throw new Error(`${what} holds what would end its element.`);
  const lines = text.trimEnd().split('\n').map((line) => JSON.stringify(line));
  const digest = createHash('sha256').update(text).digest('base64');
  return `/** ${what}. */\nexport const ${name} = \`\${[\n${lines.join(',\n')},\n].join('\\n')}\\n\`;\n\n/** SHA-256 of it in base64, as a security policy names it. */\nexport const ${name}_SHA256 = '${digest}';\n`;
}

function format(source) {
  const biome = join(root, 'node_modules', '@biomejs', 'biome', 'bin', 'biome');
  const args = [biome, 'check', '--config-path', join(root, '.config'), '--write', `--stdin-file-path=${target}`];
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { input: source, encoding: 'utf8', cwd: root });
  if (status !== 0) throw new Error(`Formatting failed: ${stderr}`);
  return stdout;
}

const banner = '// Generated from the folders client and style by `npm run generate`: change these, not this file.';
const text = format(`${banner}\n${constant('SCRIPT', 'The script of the page', script())}\n${constant('STYLE', 'The style of the page', style())}`);
let current = '';
try {
  current = readFileSync(target, 'utf8');
} catch {
  // Not written yet.
}
if (current !== text) {
  if (process.argv.includes('--check')) {
    process.stderr.write('src/report/html/embedded.ts is not what the folders client and style say: run `npm run generate`.\n');
    process.exitCode = 1;
  } else writeFileSync(target, text);
}
