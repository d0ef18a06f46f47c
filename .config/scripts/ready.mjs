// Makes a fresh clone ready to run: installs what package-lock.json names, then compiles src to dist. Says and does nothing where both are up to date.
// Uses Node alone, because it runs before anything is installed. Everything it prints goes to stderr, so that results on stdout stay clean.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const stamp = join(root, 'dist', '.built');

/** True where an installed version is not the locked one, or a package that is not optional is missing. Versions, not file times: a checkout changes times. */
function installIsStale() {
  const installedList = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(installedList)) return true;
  const locked = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
  const installed = JSON.parse(readFileSync(installedList, 'utf8')).packages;
  return Object.entries(locked).some(([path, entry]) => {
    if (path === '') return false;
    const found = installed[path];
    return found === undefined ? entry.optional !== true && entry.devOptional !== true : found.version !== entry.version;
  });
}

/** Latest change of anything in a folder, folders included: a deleted file changes its folder. */
function newestChange(path) {
  const stat = statSync(path);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return readdirSync(path).reduce((newest, name) => Math.max(newest, newestChange(join(path, name))), stat.mtimeMs);
}

function buildIsStale() {
  if (!existsSync(stamp) || !existsSync(join(root, 'dist', 'cli', 'main.js'))) return true;
  const built = statSync(stamp).mtimeMs;
  return ['src', 'schemas', 'tsconfig.json', 'package-lock.json'].some((name) => newestChange(join(root, name)) > built);
}

function run(what, command, args) {
  process.stderr.write(`${what} ...\n`);
  // stdout of the step is sent to our stderr (file descriptor 2).
  const { status, error } = spawnSync(command, args, { cwd: root, stdio: ['ignore', 2, 2], shell: process.platform === 'win32' });
  if (status === 0) return;
  process.stderr.write(`${what} failed${error ? `: ${error.message}` : ''}.\n`);
  process.exit(status ?? 1);
}

if (installIsStale()) run('Installing the packages named in package-lock.json (npm ci)', 'npm', ['ci', '--no-audit', '--no-fund']);
if (buildIsStale()) {
  const started = new Date();
  rmSync(join(root, 'dist'), { recursive: true, force: true });
  run('Building', process.execPath, [join(root, 'node_modules', 'typescript', 'bin', 'tsc'), '-p', join(root, 'tsconfig.json')]);
  run('Copying the help', process.execPath, [join(root, '.config', 'scripts', 'copy-help.mjs')]);
  run('Compiling the schemas', process.execPath, [join(root, '.config', 'scripts', 'compile-schemas.mjs')]);
  run('Bundling', process.execPath, [join(root, '.config', 'scripts', 'bundle.mjs')]);
  mkdirSync(join(root, 'dist'), { recursive: true });
  writeFileSync(stamp, '');
  // The time the build began, so that a change made while it ran counts as newer.
  utimesSync(stamp, started, started);
}
