// Makes the checks of the published file formats from their schemas, into dist/checks: one file for each format that stops at the first error,
// and one that tells every error. They need nothing else to run, and no run of the program has to make them first.
import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import standalone from 'ajv/dist/standalone/index.js';
import formats from 'ajv-formats';
import { buildSync } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const ENDING = '.schema.json';
const schemas = readdirSync(join(root, 'schemas')).filter((name) => name.endsWith(ENDING));
const folder = join(root, 'dist', 'checks');

mkdirSync(folder, { recursive: true });
for (const allErrors of [false, true]) {
  // ownProperties, because {} would otherwise pass for having `toString`; verbose gives the value and the description to the sentence.
  const ajv = new Ajv2020({
    strict: true,
    allowUnionTypes: true,
    ownProperties: true,
    allErrors,
    verbose: true,
    code: { source: true },
  });
  formats.default(ajv, ['date']);
  const read = schemas.map((name) => ({ name, schema: JSON.parse(readFileSync(join(root, 'schemas', name), 'utf8')) }));
  for (const { schema } of read) ajv.addSchema(schema);
  for (const { name, schema } of read) {
    buildSync({
      stdin: { contents: standalone.default(ajv, ajv.getSchema(schema.$id)), resolveDir: root },
      bundle: true,
      format: 'cjs',
      platform: 'node',
      minifyWhitespace: true,
      logLevel: 'error',
      outfile: join(folder, `${name.slice(0, -ENDING.length)}${allErrors ? '-every' : ''}.cjs`),
    });
  }
}
