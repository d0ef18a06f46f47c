import { expect, it } from 'vitest';
import { generateBatch } from './batch.js';

it('makes a batch of the size asked for, on reels of the length asked for, the same each time', () => {
  const options = { seed: 7, pages: 400, pagesPerReel: 100, profile: 'issue-mets', faults: 5 } as const;
  const batch = generateBatch(options);
  const pages = batch.record.reels.flatMap((reel) => reel.frames).filter((frame) => frame.kind === 'page' && frame.deliver);
  expect(batch.record.reels.length).toBe(4);
  expect(Math.abs(pages.length - 400)).toBeLessThan(40);
  expect(batch.expected.length).toBe(5);
  const texts = [...batch.files].map((file) => file.text);
  expect([...generateBatch(options).files].map((file) => file.text)).toEqual(texts);
  expect([...generateBatch({ ...options, seed: 8 }).files].map((file) => file.text)).not.toEqual(texts);
});
