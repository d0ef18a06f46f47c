import { defineConfig } from 'vitest/config';
import { root, SLOW, test } from './vitest.config.js';

export default defineConfig({ root, test: { ...test, include: [SLOW] } });
