// Writes src/model/<name>.ts from schemas/<name>.schema.json, so that the published format and the code cannot drift apart.
// With --check it writes nothing and fails where a file is out of date.
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { compile } from 'json-schema-to-typescript';
import ts from 'typescript';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const names = ['agreement', 'collation-record', 'findings', 'reading', 'record-check', 'rulings'];
const biome = join(root, 'node_modules', '@biomejs', 'biome', 'bin', 'biome');

const pathOf = (name) => join(root, 'src', 'model', `${name}.ts`);

/** An object whose every property points into one definition and that requires none of them is that definition with every part optional. */
function partialOf(schema) {
  if (schema.type !== 'object' || schema.required !== undefined || schema.properties === undefined) return null;
  const whole = new Set();
  for (const [key, value] of Object.entries(schema.properties)) {
    const [, definition, field] = /^(.*#\/\$defs\/\w+)\/properties\/(.+)$/.exec(value.$ref ?? '') ?? [];
    whole.add(field === key ? definition : undefined);
  }
  const [only] = whole;
  return whole.size === 1 && only !== undefined ? only : null;
}

/** Name of the type that a reference means; one from another file is noted in `imports`. */
function nameOf(reference, imports) {
  const [, file, name] = /^(?:https:\/\/reeltally\.example\/schemas\/([\w-]+)\/\d+)?#\/\$defs\/(\w+)$/.exec(reference) ?? [];
  if (name === undefined) throw new Error(`Cannot name the type of ${reference}`);
  if (file !== undefined) imports.set(name, file);
  return name;
}

/** The same schema with every reference replaced by the name of the type it means; see nameOf. */
function withNames(schema, imports) {
  if (Array.isArray(schema)) return schema.map((item) => withNames(item, imports));
  if (schema === null || typeof schema !== 'object') return schema;
  const { description } = schema;
  const partial = partialOf(schema);
  if (partial !== null) return { description, tsType: `Partial<${nameOf(partial, imports)}>` };
  if (typeof schema.$ref === 'string') return { description, tsType: nameOf(schema.$ref, imports) };
  const { propertyNames, ...rest } = schema;
  return Object.fromEntries(Object.entries(rest).map(([key, value]) => [key, withNames(value, imports)]));
}

/** Puts `readonly` in front of every property, index signature and array type. */
function readonlyEverywhere(source) {
  const at = [];
  const visit = (node) => {
    const isArray = ts.isArrayTypeNode(node) || ts.isTupleTypeNode(node);
    const isMember = ts.isPropertySignature(node) || ts.isIndexSignatureDeclaration(node);
    if (isArray || isMember) at.push(node.getStart());
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile('types.ts', source, ts.ScriptTarget.ES2022, true));
  return at.sort((a, b) => b - a).reduce((text, place) => `${text.slice(0, place)}readonly ${text.slice(place)}`, source);
}

async function typesOf(name) {
  const { $defs = {}, $schema, $id, title, ...main } = JSON.parse(readFileSync(join(root, 'schemas', `${name}.schema.json`), 'utf8'));
  const imports = new Map();
  const parts = [];
  for (const [typeName, schema] of Object.entries({ [title]: main, ...$defs })) {
    const named = withNames(schema, imports);
    parts.push(
      named.tsType === undefined
        ? await compile(named, typeName, { bannerComment: '', additionalProperties: false, ignoreMinAndMaxItems: true, format: false })
        : `/** ${named.description} */\nexport type ${typeName} = ${named.tsType};\n`,
    );
  }
  const files = [...new Set(imports.values())].filter((file) => file !== name).sort();
  const lines = files.map((file) => {
    const types = [...imports].filter(([, from]) => from === file).map(([type]) => type);
    return `import type { ${types.sort().join(', ')} } from './${file}.js';`;
  });
  const banner = `// Generated from schemas/${name}.schema.json by \`npm run generate\`: change the schema, not this file.`;
  return format(`${banner}\n${lines.join('\n')}\n\n${readonlyEverywhere(oneLineComments(parts.join('\n')))}`, pathOf(name));
}

/** One line for each comment; what stands inside a list or a dictionary is said where the list is. */
function oneLineComments(source) {
  return source.replaceAll(/\/\*\*\n\s*\* (.*)\n(?:\s*\*[ ]*\n\s*\* Items: .*\n)?\s*\*\//g, '/** $1 */').replaceAll(/\/\*\* .* \*\/\n(?=\s*\[k: string\])/g, '');
}

function format(source, path) {
  const args = ['check', '--config-path', join(root, '.config'), '--write', `--stdin-file-path=${path}`];
  const { status, stdout, stderr } = spawnSync(process.execPath, [biome, ...args], { input: source, encoding: 'utf8', cwd: root });
  if (status !== 0) throw new Error(`Formatting failed for ${path}: ${stderr}`);
  return stdout;
}

/** `--print NAME` shows the types of a schema whose model is written by hand, for the test that compares the two. */
const [, , option, printed] = process.argv;
if (option === '--print') {
  process.stdout.write(await typesOf(printed));
  process.exit();
}

const check = option === '--check';
for (const name of names) {
  const text = await typesOf(name);
  const current = readFileSync(pathOf(name), 'utf8');
  if (current === text) continue;
  if (check) {
    process.stderr.write(`src/model/${name}.ts is not what schemas/${name}.schema.json says: run \`npm run generate\`.\n`);
    process.exitCode = 1;
  } else writeFileSync(pathOf(name), text);
}
