import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { renderJson } from '../../src/report/json.js';
import { EXAMPLE, finding } from '../report/example.js';
import { savedResult, shell } from './command.js';

const big = {
  ...EXAMPLE,
  findings: Array.from({ length: 1_000 }, (_, at) =>
    finding({ id: `n-${String(at)}`, code: 'volume-differs', severity: 'minor', says: 'So it is. '.repeat(20) }),
  ),
};

describe('the standard output', () => {
  const path = savedResult(big);

  it('gets a big result whole through a pipe', () => {
    const { status, stdout } = shell(`"$NODE" "$MAIN" render "${path}" --format json | cat`);
    expect(status).toBe(0);
    expect(stdout).toBe(renderJson(big));
  });

  it('may be closed by a reader that has seen enough: no complaint, the status of the work', () => {
    const { stdout, stderr } = shell(`{ "$NODE" "$MAIN" render "${path}" --format json; echo "status $?" >&2; } | head -n 1`);
    expect(stdout).toBe('{\n');
    expect(stderr).toBe('status 0\n');
  });

  // The device that is always full is Linux's (full(4)); elsewhere there is none to ask.
  it('on a full disk is status 3, for a result and for the help', () => {
    const full = existsSync('/dev/full') ? '/dev/full' : '/nowhere/full';
    for (const args of [`render "${path}" --format text`, `render "${path}" --format json`, '--help', 'render --help', '--version']) {
      const { status, stderr } = shell(`"$NODE" "$MAIN" ${args} > ${full}`);
      expect(status).not.toBe(0);
      if (full === '/dev/full') {
        expect(status).toBe(3);
        expect(stderr).toContain('could not be written to the standard output: the disk is full');
      }
    }
  });

  it('keeps the status when stderr cannot be written', () => {
    const { status } = shell(`"$NODE" "$MAIN" render /nowhere/x.json --format text 2>/dev/full`);
    expect(status).toBe(3);
  });
});
