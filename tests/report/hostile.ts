import type { Finding, Findings } from '../../src/model/findings.js';
import { EXAMPLE, finding } from './example.js';

/** Texts that a vendor's file could hold; the attack list of a terminal, a spreadsheet and an XML parser. */
export const HOSTILE: Readonly<Record<string, string>> = {
  csi: 'clear \u001b[2J screen',
  title: 'set \u001b]0;owned\u0007 title',
  clipboard: '\u001b]52;c;ZXZpbA==\u0007',
  link: '\u001b]8;;http://example.invalid\u001b\\here\u001b]8;;\u001b\\',
  c1csi: 'c1 \u009b31m red',
  c1osc: 'c1 \u009d0;owned\u009c',
  dcs: '\u001bPq\u001b\\',
  controls: 'nul \u0000 bell \u0007 back \b tab \t return \r line \n del \u007f vt \u000b',
  bidi: 'page \u202e21\u202c and \u2066x\u2069',
  invisible: 'ze\u200bro w\u200did\u2060th \ufeff soft\u00adhyphen',
  separators: 'one\u2028two\u2029three',
  tags: `tag${String.fromCodePoint(0xe0041, 0xe007f)}`,
  surrogate: `lone \ud800 half ${String.fromCharCode(0xdc00)}`,
  noncharacter: 'end \ufffe \uffff',
  marks: `heap e${'\u0301'.repeat(200)}`,
  formula: '=1+1',
  call: '=HYPERLINK("http://example.invalid";"x")',
  dde: "=cmd|' /C calc'!A0",
  plus: '+1',
  minus: '-1',
  at: '@SUM(A1)',
  fullwidth: '＝1＋1',
  spaced: ' \u00a0=1+1',
  quote: "'tis a label",
  zeros: '0012',
  dateLike: '1-2',
  exponent: '3E1',
  month: 'MAR1',
  long: '9'.repeat(10_000),
  longWords: 'word '.repeat(2_000),
  markup: '<script>alert(1)</script> & &amp; a&b;c ]]> "q" \'p\'',
  prototype: '__proto__',
};

function hostileFinding(name: string, text: string): Finding {
  return finding({
    id: `hostile-${name}-${text}`,
    code: text,
    severity: 'critical',
    reel: text,
    at: text,
    frames: { from: text, to: text, list: [text, `${text}:${text}`] },
    title: text,
    date: text,
    page: text,
    field: text,
    collation: text,
    return: text,
    says: text,
    instruction: text,
    evidence: [text],
    alternatives: [{ says: text, cause: 'unclear', instruction: text }],
    corrections: [{ reel: text, frame: text, action: 'set', field: text, from: text, to: text }],
    places: [
      { document: text, element: text, line: 1 },
      { sheet: text, row: 1 },
    ],
    billable: [{ class: text, change: -1 }],
    ruling: { decision: 'vendor-corrects', note: text, by: text, on: text },
    answer: { text, on: text },
  });
}

/** A saved result in which every text that could come from outside is hostile. */
export const HOSTILE_RESULT: Findings = {
  ...EXAMPLE,
  run: {
    ...EXAMPLE.run,
    batch: HOSTILE.csi ?? '',
    profile: HOSTILE.bidi ?? '',
    received: HOSTILE.c1csi ?? '',
    remarks: Object.values(HOSTILE),
  },
  verdict: { decision: 'return-for-rework', reasons: Object.values(HOSTILE) },
  counts: {
    ...EXAMPLE.counts,
    reels: Object.values(HOSTILE).flatMap((text) =>
      EXAMPLE.counts.reels.map((reel) => ({ ...reel, reel: text, kinds: [{ kind: text, deliver: true, count: 1 }] })),
    ),
    classes: Object.values(HOSTILE).map((text) => ({ class: text, charge: text, record: 1, returned: 1, accepted: 1, disputed: 0 })),
  },
  titles: Object.values(HOSTILE).map((text) => ({ id: text, name: text, patterns: [] })),
  findings: Object.entries(HOSTILE).map(([name, text]) => hostileFinding(name, text)),
  corrected: Object.entries(HOSTILE).map(([name, text]) => hostileFinding(name, text)),
  unchecked: Object.values(HOSTILE).map((text) => ({
    what: text,
    why: text,
    frames: { from: text, to: text },
    places: [{ document: text, element: text }],
    count: 1,
    required: true,
  })),
  catalogue: Object.values(HOSTILE).map((text) => ({ code: text, group: 'page', title: text, why: text, severity: 'critical' })),
};

/** Every character that may steer a terminal, hide text or turn its direction; a line feed is the report's own. */

export const STEERING =
  /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u00ad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\u{e0000}-\u{e007f}]|\p{Cs}/u;
