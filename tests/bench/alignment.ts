// Times the alignment alone, as ratios to a reel of 1,000 frames: npm run bench:alignment
import { cheapestAlignment, type Sequence } from '../../src/align/cheapest.js';
import { emptyFeatures, KIND } from '../../src/align/features.js';

/** Issues of eight pages with a blank between; every `every`-th frame of the return is dropped, and one issue in thirty misdated. `stranger` shares nothing with the record. */
function reel(length: number, side: 'record' | 'return', stranger = false): Sequence {
  const features = emptyFeatures(length);
  let kept = 0;
  for (let at = 0; kept < length; at++) {
    if (side === 'return' && !stranger && at % 397 === 396) continue;
    const issue = Math.floor(at / 9) + 1;
    const blank = at % 9 === 8;
    features.kind[kept] = blank ? (side === 'record' ? KIND.blank : KIND.empty) : KIND.page;
    if (!blank) {
      features.issue[kept] = issue;
      features.title[kept] = stranger ? 2 : 1;
      features.date[kept] = (stranger ? 1_000_000 : 0) + (side === 'return' && issue % 30 === 0 ? issue + 500_000 : issue);
      features.label[kept] = (stranger ? 100 : 0) + (at % 9) + 1;
      features.order[kept] = (at % 9) + 1;
    }
    kept++;
  }
  return { features, free: new Uint8Array(length) };
}

/** Processor time, not wall time: what else the machine does is left out. */
function median(run: () => void): number {
  const times = Array.from({ length: 7 }, () => {
    const start = process.cpuUsage();
    run();
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1000;
  });
  return times.sort((a, b) => a - b)[3] ?? 0;
}

const time = (length: number, stranger: boolean): number => {
  const record = reel(length, 'record');
  const returned = reel(length, 'return', stranger);
  return median(() => cheapestAlignment(record, returned));
};
time(500, false);
const base = time(1000, false);
console.log('frames   ordinary reel        nothing matches');
for (const length of [1000, 2000, 5000]) {
  const ordinary = time(length, false);
  const unrelated = time(length, true);
  const nLogN = (length * Math.log(length)) / (1000 * Math.log(1000));
  console.log(
    `${String(length).padStart(6)}   ${ordinary.toFixed(1).padStart(7)} ms  ${(ordinary / base).toFixed(1)} x (n log n: ${nLogN.toFixed(1)} x)   ${unrelated.toFixed(0).padStart(6)} ms`,
  );
}
