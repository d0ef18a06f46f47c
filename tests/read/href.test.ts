import { describe, expect, it } from 'vitest';
import { resolveHref } from '../../src/read/href.js';

// RFC 8493 (BagIt), section 5.1, names most of these forms as ones a reader must not follow.
const unsafe = [
  '../../outside.tif',
  'a/../../../outside.tif',
  '%2e%2e/%2e%2e/outside.tif',
  '%252e%252e/outside.tif',
  '/etc/passwd',
  '//server/share/x.tif',
  'file:///etc/passwd',
  'http://example.org/x.tif',
  'C:/x.tif',
  'C:x.tif',
  '\\\\server\\share\\x.tif',
  '..\\x.tif',
  '~/x.tif',
  '~user/x.tif',
  'x\0.tif',
  '',
  '.',
  './',
  ' ',
];

describe('references to files', () => {
  it.each(unsafe)('%j is not followed', (href) => {
    expect(resolveHref('issue', href)).toEqual({ safe: false });
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
