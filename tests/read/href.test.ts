import { describe, expect, it } from 'vitest';
import { resolveHref } from '../../src/read/href.js';

// RFC 8493 (BagIt), section 5.1, names most of these forms as ones a reader must not follow.
const unsafe = [
  ['../../outside.tif', 'outside'],
  ['a/../../../outside.tif', 'outside'],
  ['%2e%2e/%2e%2e/outside.tif', 'outside'],
  ['%252e%252e/outside.tif', 'characters'],
  ['/etc/passwd', 'address'],
  ['//server/share/x.tif', 'address'],
  ['file:///etc/passwd', 'address'],
  ['http://example.org/x.tif', 'address'],
  ['C:/x.tif', 'address'],
  ['C:x.tif', 'address'],
  ['\\\\server\\share\\x.tif', 'address'],
  ['..\\x.tif', 'backslash'],
  ['~/x.tif', 'address'],
  ['~user/x.tif', 'address'],
  ['x\0.tif', 'characters'],
  ['', 'nothing'],
  ['.', 'own-folder'],
  ['./', 'own-folder'],
  [' ', 'nothing'],
] as const;

describe('references to files', () => {
  it.each(unsafe)('%j is not followed: %s', (href, because) => {
    expect(resolveHref('issue', href)).toEqual({ safe: false, because });
  });

  it.each([
    ['0001.tif', 'lccn/reel/issue/0001.tif'],
    ['./0001.tif', 'lccn/reel/issue/0001.tif'],
    ['sub//0001.tif', 'lccn/reel/issue/sub/0001.tif'],
    ['../0001.tif', 'lccn/reel/0001.tif'],
    ['page%20one.tif', 'lccn/reel/issue/page one.tif'],
    ['100%.tif', 'lccn/reel/issue/100%.tif'],
    ['..hidden.tif', 'lccn/reel/issue/..hidden.tif'],
  ])('%j means %j', (href, path) => {
    expect(resolveHref('lccn/reel/issue', href)).toEqual({ safe: true, path });
  });
});
