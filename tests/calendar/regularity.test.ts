import { describe, expect, it } from 'vitest';
import { expectedDays } from '../../src/calendar/patterns.js';
import { readRegularity } from '../../src/calendar/regularity.js';
import type { Weekday } from '../../src/model/collation-record.js';

// The form is that of MARC 21 Format for Holdings Data, 853-855 $y; the codes of days and weeks are confirmed by a general library system's
// source. The examples are written from memory of the standard, not copied from it.
const DAILY: readonly Weekday[] = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];
const in1899 = (regularity: string, days: readonly Weekday[] = [], from = '01-01', to = '12-31') =>
  expectedDays([{ days, regularity }], `1899-${from}`, `1899-${to}`);

describe('a regularity pattern', () => {
  it('names the weekdays of a paper: Tuesday, Thursday and Saturday', () => {
    expect(in1899('pdtu,th,sa', [], '02-11', '02-18')).toEqual(['1899-02-11', '1899-02-14', '1899-02-16', '1899-02-18']);
  });

  it('leaves Sundays out of a daily: 312 issues in 1899', () => {
    expect(in1899('odsu', DAILY)).toHaveLength(312);
  });

  it('leaves out 25 December and 4 July', () => {
    const days = in1899('od1225,0704', DAILY);
    expect(days).toHaveLength(363);
    expect(days).not.toContain('1899-07-04');
  });

  it('leaves out the last Thursday of November, the 30th in 1899', () => {
    expect(in1899('ow1199th', ['thu'], '11-01', '11-30')).toEqual(['1899-11-02', '1899-11-09', '1899-11-16', '1899-11-23']);
  });

  it('names the first and third Friday of each month, the last Saturday, every Thursday', () => {
    expect(in1899('pw01fr,03fr', [], '09-01', '09-30')).toEqual(['1899-09-01', '1899-09-15']);
    expect(in1899('pw99sa', [], '09-01', '10-31')).toEqual(['1899-09-30', '1899-10-28']);
    expect(in1899('pw00th')).toEqual(in1899('pdth'));
    expect(in1899('pw0599tu')).toEqual(['1899-05-30']);
  });

  it('names days of the month, and months without an issue', () => {
    expect(in1899('pd01,15', [], '03-01', '04-30')).toEqual(['1899-03-01', '1899-03-15', '1899-04-01', '1899-04-15']);
    expect(in1899('pd01;om07,08')).toHaveLength(10);
    expect(in1899('pm01,02', ['thu'])).toEqual(in1899('', ['thu'], '01-01', '02-28'));
  });

  it('expects a combined issue on the first of its days', () => {
    expect(in1899('cd1224/1225', DAILY, '12-23', '12-26')).toEqual(['1899-12-23', '1899-12-24', '1899-12-26']);
    // July and August together: nothing is said of days.
    expect(readRegularity('cm07/08')).toEqual([]);
  });

  it('of seasons and years says nothing of days', () => {
    expect(readRegularity('ps21,23$yoy1900')).toEqual([]);
  });

  it.each(['x', 'pd', 'pdxx', 'pd32', 'od1325', 'pw06fr', 'pw03', 'cd1224', 'pdmo tu,', 'qdmo', 'p'.repeat(2000)])('is not %j', (text) => {
    expect(readRegularity(text)).toBeNull();
  });
});
