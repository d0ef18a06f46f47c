import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ResultFrame } from '../../src/model/findings.js';
import { SCRIPT, SCRIPT_SHA256, STYLE, STYLE_SHA256 } from '../../src/report/html/embedded.js';
import { drift, signed } from '../../src/report/html/film-groups.js';
import { renderHtml } from '../../src/report/html/index.js';
import { escaped, html } from '../../src/report/html/markup.js';
import { inRuns } from '../../src/report/runs.js';
import { visible } from '../../src/report/visible.js';
import { EXAMPLE } from './example.js';
import { HOSTILE, HOSTILE_RESULT, STEERING } from './hostile.js';

/** What an HTML parser makes of the references that we write (Living Standard, 13.2.5.72). */
const read = (text: string): string =>
  text.replace(/&(amp|lt|gt|quot|#39);/g, (_, name: string) => ({ amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" })[name] ?? '');

describe('the first page', () => {
  it('says on the page that is signed how frames and pages add up', () => {
    const page = renderHtml(EXAMPLE).replace(/\s+/g, ' ');
    expect(page).toContain('By the record, to be delivered: 640 pages; held back: 12 pages, 160 blanks.');
    expect(page).toMatch(/\d+ pages came: \d+ of the 640 that were to be delivered/);
  });
});

describe('what the find box looks into', () => {
  it('holds every frame and day of a finding, however many they are', () => {
    const [reel] = EXAMPLE.reels;
    const [finding] = EXAMPLE.findings;
    const frame = reel?.frames.find(({ kind }) => kind === 'page');
    if (reel === undefined || frame === undefined || finding === undefined) throw new Error('The example has no page.');
    const frames = Array.from({ length: 500 }, (_, at): ResultFrame => {
      const number = String(2 * at + 1);
      const date = new Date(Date.UTC(1890, 0, 1 + at)).toISOString().slice(0, 10);
      return { ...frame, frame: number, returned: number, date, findings: [finding.id] };
    });
    const page = renderHtml({ ...EXAMPLE, findings: [finding], reels: [{ ...reel, frames }] });
    const [, numbers = '', days = ''] = /data-frames="([^"]*)" data-days="([^"]*)"/.exec(page) ?? [];
    expect([numbers.split(' ').length, numbers.split(' ').at(-1)]).toEqual([500, '999']);
    expect(days.split(' ')).toEqual(expect.arrayContaining(frames.flatMap(({ date }) => date ?? [])));
  });
});

describe('markup', () => {
  it('holds no text that could end an element or an attribute, and says the same', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        expect(escaped(text)).not.toMatch(/[<>"']/);
        expect(read(escaped(text))).toBe(visible(text).replace(/[\ufdd0-\ufdef\ufffe\uffff]/g, '\ufffd'));
      }),
      { seed: 1879, numRuns: 400 },
    );
  });

  it('escapes text in gaps, takes markup as it is, and leaves nothing out of lists', () => {
    expect(html`<p title="${'"'}">${'<b>'}${html`<i>${1}</i>`}${['a', html`<br>`, '&']}${null}${false}</p>`.markup).toBe(
      '<p title="&quot;">&lt;b&gt;<i>1</i>a<br>&amp;</p>',
    );
  });
});

describe('the page', () => {
  it('names the digests of its own script and style, and no others (Content Security Policy Level 3, 2.3.1)', () => {
    const digest = (text: string): string => createHash('sha256').update(text).digest('base64');
    expect([SCRIPT_SHA256, STYLE_SHA256]).toEqual([digest(SCRIPT), digest(STYLE)]);
    const page = renderHtml(EXAMPLE);
    expect([...page.matchAll(/<(script|style)>([\s\S]*?)<\/\1>/g)].map((match) => match[2])).toEqual([STYLE, SCRIPT]);
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(page)?.[1];
    expect(policy).toBe(
      `default-src 'none'; script-src 'sha256-${digest(SCRIPT)}'; style-src 'sha256-${digest(STYLE)}'; base-uri 'none'; form-action 'none'`,
    );
    // Either would be refused by that policy.
    expect(page).not.toMatch(/ style="| on[a-z]+="/);
  });

  it('writes into the document through text alone', () => {
    expect(SCRIPT).not.toMatch(/innerHTML|outerHTML|insertAdjacentHTML|document\.write|eval|Function\(/);
  });

  it('holds no hostile text that steers, hides or becomes markup', () => {
    const page = renderHtml(HOSTILE_RESULT, { batch: '../return' });
    expect(STEERING.exec(page)).toBeNull();
    expect(page).toContain('\\u{202e}21\\u{202c}');
    expect(page).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    expect([...page.matchAll(/<script[ >]/g)]).toHaveLength(2);
    // The script's own data keep ids whole.
    expect(page.replace(/<script type="application\/json"[\s\S]*?<\/script>/, '')).not.toContain('9'.repeat(1600));
  });

  it('gives the script every id exactly', () => {
    const json = /<script type="application\/json" id="data">([\s\S]*?)<\/script>/.exec(renderHtml(HOSTILE_RESULT))?.[1] ?? '';
    expect(json).toMatch(/^[^<>&\u2028\u2029]*$/);
    const data = JSON.parse(json) as { readonly findings: readonly { readonly id: string }[] };
    expect(data.findings.map((one) => one.id)).toEqual(Object.entries(HOSTILE).map(([name, text]) => `hostile-${name}-${text}`));
  });

  it('says of a second delivery what is open, answered, decided, corrected and unchecked', () => {
    const text = read(renderHtml(EXAMPLE).replace(/<[^>]*>/g, ' ')).replace(/\s+/g, ' ');
    for (const part of [
      'Return for rework',
      '2 findings are critical and their cause lies with the vendor.',
      'Open since an earlier delivery.',
      "Vendor's answer of 1926-01-08: We read it from page 2.",
      "Library's decision: Accepted as it is, by Ada Pell on 1926-01-10. Both numbers are found in our index.",
      'What else would explain it The record counts a blank that is not on the film. Cause: the collation record. Then: Look at the film',
      'Decided by the library, no longer counted 1',
      'Corrected since the earlier delivery The title differs: reel 00417, frames 350 to 351',
      'Image files : there are no image files in this copy.',
      'The layout was recognised as issue-mets.',
      '21 calendar days from 1926-01-05',
      '5'.repeat(64),
      'The verdict is advice.',
    ]) {
      expect(text).toContain(part);
    }
  });

  it('gives every finding an anchor of its own', () => {
    const twice = { ...EXAMPLE, findings: EXAMPLE.findings.map((one, at) => (at === 2 ? { ...one, id: 'odd id' } : one)) };
    const anchors = [...renderHtml(twice).matchAll(/<article class="finding [a-z]+" id="([^"]*)"/g)].map((match) => match[1]);
    expect(anchors).toContain('finding-frame-not-scanned:00417:41');
    expect(anchors).toContain('finding-number-2');
    expect(new Set(anchors).size).toBe(EXAMPLE.findings.length);
  });
});

describe('numbers of frames', () => {
  const frame = (mine: string | null, theirs: string | null): ResultFrame => ({
    ...EXAMPLE.reels[0]!.frames[0]!,
    frame: mine,
    returned: theirs,
  });

  it('drift where both are plain numbers', () => {
    expect(drift(frame('42', '41'))).toBe(-1);
    expect(drift(frame('42', '42'))).toBe(0);
    expect(drift(frame('12A', '12'))).toBeNull();
    expect(drift(frame('12', null))).toBeNull();
    expect([signed(-1), signed(2), signed(0)]).toEqual(['−1', '+2', '0']);
  });

  it('are told in runs', () => {
    expect(inRuns(['1', '2', '3', '7', '9', '10'])).toBe('1 to 3, 7, 9 to 10');
    expect(inRuns(['12A', '12B', '13', '14'])).toBe('12A, 12B, 13 to 14');
    expect(inRuns([null, '5', null])).toBe('5');
    expect(inRuns([null])).toBe('none');
  });
});
