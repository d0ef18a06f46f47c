import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** Compares our days with those of date-fns and prints what it found; runs in a process of its own, because a zone is set at its start. */
const COMPARISON = `
import { format } from 'date-fns/format';
import { isValid } from 'date-fns/isValid';
import { parse } from 'date-fns/parse';
const differences = [];
let days = 0;
for (let day = '1800-01-01'; day < '2000-01-01'; day = addDays(day, 1)) {
  days += 1;
  const [year, month, date] = day.split('-').map(Number);
  const reference = format(new Date(year, month - 1, date, 12), 'yyyy-MM-dd EEE yyyy-MM-dd').toLowerCase();
  const ours = day + ' ' + weekday(day) + ' ' + fromDayNumber(dayNumber(day));
  if (reference !== ours) differences.push(day);
}
for (const year of [1800, 1844, 1896, 1899, 1900, 1904, 1999]) {
  for (let month = 0; month <= 13; month += 1) {
    for (let date = 0; date <= 32; date += 1) {
      const day = year + '-' + String(month).padStart(2, '0') + '-' + String(date).padStart(2, '0');
      if (isDay(day) !== isValid(parse(day, 'yyyy-MM-dd', new Date(2000, 0, 1)))) differences.push(day);
    }
  }
}
console.log(JSON.stringify({ zone: process.env.TZ, atUtc: new Date(1850, 0, 1).getTimezoneOffset() === 0, days, differences }));
`;

function compareUnder(zone: string): unknown {
  const ours = ts.transpileModule(readFileSync(`${ROOT}/src/calendar/civil.ts`, 'utf8'), {
    compilerOptions: { module: ts.ModuleKind.ESNext, target: ts.ScriptTarget.ES2022 },
  }).outputText;
  const script = ours + COMPARISON;
  const printed = execFileSync(process.execPath, ['--input-type=module', '-'], {
    cwd: ROOT,
    input: script,
    env: { ...process.env, TZ: zone },
  });
  return JSON.parse(printed.toString('utf8'));
}

describe('the days of 1800 to 1999 are those of date-fns', () => {
  it.each([
    ['UTC', []],
    ['America/New_York', []],
    ['Europe/Amsterdam', []],
    // Manila went over to the Asian side of the date line (IANA time zone database): that local day never was, but the calendar has it.
    ['Asia/Manila', ['1844-12-31']],
    ['Pacific/Apia', []],
  ])('under TZ=%s', (zone, differences) => {
    // 200 years of 365 days and the 48 leap days of 1800 to 1999. Local mean time of 1850 shows that the zone was in force.
    const atUtc = zone === 'UTC';
    expect(compareUnder(zone)).toEqual({ zone, atUtc, days: 73_048, differences });
  });
});
