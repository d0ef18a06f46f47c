// Times the alignment alone, as ratios to a reel of 1,000 frames: npm run bench:alignment
import { cheapestAlignment, type Sequence } from '../../src/align/cheapest.js';
import { emptyFeatures, KIND } from '../../src/align/features.js';

/** What the reels of a return have wrong. */
type Wrong = 'a dozen' | 'one in 60' | 'everything';

/** Issues of eight pages with a blank between. Of the return frames are dropped and issues misdated, a dozen in all or in proportion to the length; or nothing is the same. */
function reel(length: number, side: 'record' | 'return', wrong: Wrong): Sequence {
  const stranger = wrong === 'everything' && side === 'return';
  const spoilt = side === 'return' && !stranger;
  // Six of each in the whole reel, or one dropped frame in 397 and one misdated issue in 30.
  const drop = wrong === 'a dozen' ? Math.floor(length / 6.5) : 397;
  const misdate = wrong === 'a dozen' ? Math.floor(length / 9 / 6) : 30;
  const features = emptyFeatures(length);
  let kept = 0;
  for (let at = 0; kept < length; at++) {
    if (spoilt && at % drop === drop - 1) continue;
    const issue = Math.floor(at / 9) + 1;
    const blank = at % 9 === 8;
    features.kind[kept] = blank ? (side === 'record' ? KIND.blank : KIND.empty) : KIND.page;
    if (!blank) {
      features.issue[kept] = issue;
      features.title[kept] = stranger ? 2 : 1;
      features.date[kept] = (stranger ? 1_000_000 : 0) + (spoilt && issue % misdate === 0 ? issue + 500_000 : issue);
      features.label[kept] = (stranger ? 100 : 0) + (at % 9) + 1;
      features.labelNumber[kept] = features.label[kept] ?? 0;
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

const time = (length: number, wrong: Wrong): number => {
  const record = reel(length, 'record', wrong);
  const returned = reel(length, 'return', wrong);
  return median(() => cheapestAlignment(record, returned));
};
time(500, 'a dozen');
const base = time(1000, 'a dozen');
console.log('frames   a dozen discrepancies              one frame in 60   nothing matches');
for (const length of [1000, 2000, 5000]) {
  const ordinary = time(length, 'a dozen');
  const nLogN = (length * Math.log(length)) / (1000 * Math.log(1000));
  const [growing, unrelated] = [time(length, 'one in 60'), time(length, 'everything')];
  console.log(
    `${String(length).padStart(6)}   ${ordinary.toFixed(1).padStart(6)} ms  ${(ordinary / base).toFixed(1).padStart(4)} x (n log n: ${nLogN.toFixed(1)} x)   ${growing.toFixed(1).padStart(6)} ms   ${unrelated.toFixed(0).padStart(10)} ms`,
  );
}
