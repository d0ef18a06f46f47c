#!/usr/bin/env node
import { run } from './run.js';

// A fault unless the run says otherwise: work that never ends or a rejection that nobody hears must not look like an answer.
process.exitCode = 4;
process.exitCode = await run(process.argv.slice(2));
