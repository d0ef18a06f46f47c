// Writes the folder `fixtures/demonstration` that `reeltally demo` copies: the library's record and agreement, and the faulty return of the invented reel.
// With --check it compares and writes nothing.
import { demoAgreement, demoRecord, demoReturn } from '../demonstration.js';
import { frameSheet, reelSheet, titleSheet } from '../record/frame-sheet.js';
import { keep } from './made.js';

const record = demoRecord();
const { files, plan } = demoReturn('faulty');
const made = new Map([
  ['fixtures/demonstration/agreement.json', `${JSON.stringify(demoAgreement(), null, 2)}\n`],
  ['fixtures/demonstration/record/frames.csv', frameSheet(record)],
  ['fixtures/demonstration/record/titles.csv', titleSheet(record)],
  ['fixtures/demonstration/record/reels.csv', reelSheet(record)],
  ...files.map(({ path, text }) => [`fixtures/demonstration/return/${plan.batch}/${path}`, text] as const),
]);
keep('The demonstration is', made, ['fixtures/demonstration']);
