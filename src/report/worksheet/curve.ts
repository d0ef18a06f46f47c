import type { CurvePoint } from '../../model/sample.js';

const WIDTH = 360;
const HEIGHT = 160;
const LEFT = 40;
const BOTTOM = 28;

/** The operating curve as a picture, with the same figures in a table below it; empty where there is nothing to draw. */
export function curvePicture(curve: readonly CurvePoint[], unit: string): string {
  const most = curve.at(-1)?.wrong ?? 0;
  if (most === 0) return '';
  const x = (wrong: number): string => (LEFT + (wrong / most) * (WIDTH - LEFT - 8)).toFixed(1);
  const y = (chance: number): string => (8 + (1 - chance) * (HEIGHT - BOTTOM - 8)).toFixed(1);
  const line = curve.map(({ wrong, passes }) => `${x(wrong)},${y(passes)}`).join(' ');
  const level = (chance: number): string =>
    `<line class="grid" x1="${String(LEFT)}" x2="${String(WIDTH - 8)}" y1="${y(chance)}" y2="${y(chance)}"/><text x="${String(LEFT - 4)}" y="${y(chance)}" dy="4" text-anchor="end">${String(chance * 100)} %</text>`;
  const rows = curve.map(
    ({ wrong, share, passes }) =>
      `<tr><td>${String(wrong)}</td><td>${(share * 100).toFixed(2)} %</td><td>${(passes * 100).toFixed(2)} %</td></tr>`,
  );
  return `<details class="curve" open>
<summary>What the plan protects against</summary>
<svg viewBox="0 0 ${String(WIDTH)} ${String(HEIGHT)}" role="img" aria-label="The chance that the lot passes, by the number of wrong ${unit}s in it: from ${((curve[0]?.passes ?? 0) * 100).toFixed(0)} % with none to ${((curve.at(-1)?.passes ?? 0) * 100).toFixed(2)} % with ${String(most)}.">
${[0, 0.5, 1].map(level).join('')}
<polyline points="${line}"/>
<text x="${String(LEFT)}" y="${String(HEIGHT - 10)}">0</text><text x="${String(WIDTH - 8)}" y="${String(HEIGHT - 10)}" text-anchor="end">${String(most)} ${unit}s wrong in the lot</text>
</svg>
<details><summary>The same in figures</summary>
<table><thead><tr><th scope="col">${unit}s wrong in the lot</th><th scope="col">that is</th><th scope="col">chance that it passes</th></tr></thead>
<tbody>${rows.join('\n')}</tbody></table></details>
</details>`;
}
