import type { Finding } from '../model/findings.js';

/**
 * Names findings so that they keep their name in the next delivery: from the code, title, date, edition, field and the record's reel and
 * first frame, never from the return's reading, the delivery or the order. Equal names are told apart by -2, -3.
 */
export function withIds<T extends Pick<Finding, 'code' | 'title' | 'date' | 'edition' | 'field' | 'reel' | 'at'>>(
  findings: readonly T[],
): (T & { readonly id: string })[] {
  const used = new Map<string, number>();
  return findings.map((finding) => {
    const parts = [finding.code, finding.title, finding.date, finding.edition, finding.field, finding.reel, finding.at];
    const base = `${finding.code}-${fingerprint(parts.map((part) => String(part ?? '')).join('\u0000'))}`;
    const count = (used.get(base) ?? 0) + 1;
    used.set(base, count);
    return { ...finding, id: count === 1 ? base : `${base}-${String(count)}` };
  });
}

/** FNV-1a over the UTF-16 units, twice with different starts: 12 hexadecimal digits. No secret, only a short name. */
function fingerprint(text: string): string {
  const hash = (start: number): number => {
    let value = start;
    for (let i = 0; i < text.length; i++) {
      value ^= text.charCodeAt(i);
      value = Math.imul(value, 0x01000193) >>> 0;
    }
    return value;
  };
  return hash(0x811c9dc5).toString(16).padStart(8, '0') + (hash(0x01234567) & 0xffff).toString(16).padStart(4, '0');
}
