import type { ShownPicture } from '../model/pictures.js';

/** What a small picture was made of, in words: use, kind, true size, and that it is reduced. */
export function pictureInWords({ use, kind, full, height }: ShownPicture): string {
  const plain = (one: number): string => one.toLocaleString('en');
  const size =
    full === null
      ? 'drawn from a page without an image of its own'
      : `${[full.width, full.height].map(plain).join(' x ')} pixels in the file`;
  const smaller = full !== null && full.height > height ? `, shown here in grey and ${plain(height)} pixels high` : ', shown here in grey';
  return `${use}, ${kind}, ${size}${smaller}.`;
}
