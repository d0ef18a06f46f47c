// Puts the texts of `reeltally help` beside the compiled program, where it looks for them. Uses Node alone.
import { cpSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
cpSync(join(root, 'src', 'help'), join(root, 'dist', 'help'), { recursive: true });
