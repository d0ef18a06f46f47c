import { writeFileSync } from 'node:fs';
import { README, readme } from './readme.js';

// Part of `npm run generate`.
writeFileSync(README, readme());
