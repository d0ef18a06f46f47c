// Puts the command line into a few files instead of several hundred, each of which would cost every run a look at the disk: dist/cli/main.js with one
// part for what commands share and one for each command. The files of the compiler stay beside it, for who imports the package. What other packages
// it holds, and on what terms, stands in dist/cli/LICENSES.txt.
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const folder = join(root, 'dist', 'cli');

for (const name of existsSync(folder) ? readdirSync(folder) : []) if (name.startsWith('part-')) rmSync(join(folder, name));
const { metafile } = buildSync({
  // Batches are verified in threads, each of which begins with a file of its own.
  entryPoints: [join(root, 'src', 'cli', 'main.ts'), join(root, 'src', 'cli', 'batch-worker.ts')],
  outdir: folder,
  absWorkingDir: root,
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  chunkNames: 'part-[hash]',
  // Optional packages, which may be absent.
  external: ['sharp', '@cornerstonejs/*', '@hyzyla/*'],
  // Packages in the older form of modules ask for Node's own by require.
  banner: { js: "import { createRequire as requireFrom } from 'node:module';\nconst require = requireFrom(import.meta.url);" },
  allowOverwrite: true,
  legalComments: 'none',
  logLevel: 'error',
  metafile: true,
});

const packages = new Set(Object.keys(metafile.inputs).flatMap((path) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)?.[0] ?? []));
const terms = [...packages].sort().map((path) => {
  const { name, version, license } = JSON.parse(readFileSync(join(root, path, 'package.json'), 'utf8'));
  const file = readdirSync(join(root, path)).find((each) => /^licen[cs]e/i.test(each));
  return `${name} ${version} (${license})\n\n${file === undefined ? '' : readFileSync(join(root, path, file), 'utf8').trim()}\n`;
});
writeFileSync(join(folder, 'LICENSES.txt'), terms.join('\n----\n\n'));
