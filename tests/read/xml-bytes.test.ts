import fc from 'fast-check';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { toUtf8 } from '../../src/read/decode.js';
import { type GateResult, passGate } from '../../src/read/xml-gate.js';

const WANTED: ReadonlySet<string> = new Set(['messageDigest', 'size']);

/** A METS document in small, with all that a digest can be broken up by. */
const METS = `<?xml version='1.0' encoding='UTF-8' standalone="yes"?><!-- top --><?note a?>
<m:mets xmlns:m="urn:m" xmlns:x='urn:x' xmlns:l="urn:l"><m:amdSec ID="A"><m:techMD ID="T1"><x:messageDigest>ab&#x41;<![CDATA[d]]]]><!-- q -->e</x:messageDigest>
<x:size> 12 </x:size></m:techMD><m:techMD x:ID="no" ID='T&amp;2'><x:size/><x:other>7</x:other></m:techMD></m:amdSec>
<m:fileSec><m:file ID="f" x:ID="g" xml:lang="en" SIZE='3'><m:FLocat l:href="a/b.tif"/></m:file></m:fileSec><m:amdSec/></m:mets>
<?end ?>
`;

type Leaf = Extract<GateResult, { ok: true }>['leaves'][number];

/** What saxes, namespaces and all, takes from the same document; null where it finds a fault, a DOCTYPE or bytes that are no UTF-8. */
function saxesLeaves(bytes: Buffer): readonly Leaf[] | null {
  const leaves: Leaf[] = [];
  const open: string[] = [];
  let section = '';
  let leaf: string | null = null;
  let text = '';
  const parser = new SaxesParser({ xmlns: true });
  const refuse = (): void => {
    throw new Error('refused');
  };
  parser.on('error', refuse);
  parser.on('doctype', refuse);
  parser.on('opentag', (tag) => {
    open.push(tag.local);
    const inside = open.indexOf('amdSec');
    if (inside < 0) return;
    if (open.length === inside + 2) {
      const ids = Object.values(tag.attributes).filter((attribute) => attribute.local === 'ID' && attribute.prefix !== 'xmlns');
      section = (ids.find((attribute) => attribute.prefix === '') ?? ids[0])?.value ?? '';
    }
    leaf = WANTED.has(tag.local) ? tag.local : null;
    text = '';
  });
  const add = (piece: string): void => {
    text += piece;
  };
  parser.on('text', add);
  parser.on('cdata', add);
  parser.on('closetag', () => {
    open.pop();
    if (leaf !== null) leaves.push({ section, name: leaf, text: text.trim() });
    leaf = null;
  });
  try {
    parser.write(new TextDecoder('utf-8', { fatal: true }).decode(bytes)).close();
    return leaves;
  } catch {
    return null;
  }
}

function gateLeaves(bytes: Buffer): readonly Leaf[] | null {
  const decoded = toUtf8(bytes);
  if (!decoded.ok) return null;
  const gate = passGate(decoded.utf8, WANTED);
  return gate.ok ? gate.leaves : null;
}

const refusedBySaxes: readonly Leaf[] = [{ section: '', name: 'refused by saxes', text: '' }];

describe('digests and sizes taken on the way', () => {
  it('are those of the document', () => {
    expect(gateLeaves(Buffer.from(METS))).toEqual([
      { section: 'T1', name: 'messageDigest', text: 'abAd]]e' },
      { section: 'T1', name: 'size', text: '12' },
      { section: 'T&2', name: 'size', text: '' },
    ]);
  });

  it('are what saxes takes from thousands of changed documents, and where saxes finds a fault the gate finds one too', () => {
    const pieces = ['<', '>', '/>', '&', '"', "'", ' ', '--', ']]>', '<![CDATA[', '<!--', '&#65;', '&#0;', '\0', 'é', '\uffff', 'x:', 'q:'];
    const more = ['xmlns:x=""', ' ID="n"', '<x:size>5</x:size>', '<m:amdSec>', '</m:amdSec>', '<!DOCTYPE r>', '<?p?>', '<?xml?>', '\u0300'];
    const harmless = ['7', 'a', ' ', '\n', '\r\n', '&amp;', '<!-- -->', '<![CDATA[7]]>', '漢', '𝒳'];
    const change = fc.record({
      at: fc.nat(),
      remove: fc.nat(1),
      insert: fc.oneof(
        fc.constantFrom(...harmless).map((text) => Buffer.from(text)),
        fc.constantFrom(...pieces, ...more).map((text) => Buffer.from(text)),
        fc.nat(255).map((byte) => Buffer.from([byte])),
      ),
    });
    let same = 0;
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), (changes) => {
        let bytes = Buffer.from(METS);
        for (const { at, remove, insert } of changes) {
          const from = at % bytes.length;
          bytes = Buffer.concat([bytes.subarray(0, from), insert, bytes.subarray(from + remove)]);
        }
        const own = gateLeaves(bytes);
        // saxes lets more through: names such as `x:1`, and encodings it does not look at. So it judges only what the gate accepts.
        if (own === null) return;
        expect(own).toEqual(saxesLeaves(bytes) ?? refusedBySaxes);
        same += 1;
      }),
      { numRuns: 6000, seed: 1911 },
    );
    expect(same).toBeGreaterThan(300);
  });
});

describe('the sentence about a fault', () => {
  const faults: readonly (readonly [string, string, number])[] = [
    ['<a>\n<b>\n</a>', '</a> stands where <b> is open', 3],
    ['<a>\r\n<b x="1" x="2"/></a>', 'has the attribute "x" twice', 2],
    ['<a\n>Smith & Sons</a>', 'write &amp;', 2],
    ['<a>\r\r&nbsp;</a>', '&nbsp; is not defined', 3],
    ['<!DOCTYPE a>\n<a/>', 'DOCTYPE', 1],
    ['<a/>\n<a/>', 'a second element', 2],
    ['<a>\n<q:b/></a>', 'the prefix of <q:b> is not declared', 2],
    ['<a>\n\u0001</a>', 'a character stands there that XML does not allow', 2],
    ['<a>\n<b c="<"/></a>', '"<" stands in the value of the attribute "c"', 2],
    ['<a>\n\n<b>', 'before <b> is closed', 3],
    ['{"a": 1}', 'text stands outside the root element', 1],
    ['\n<!-- a -->\n', 'it holds no element', 3],
    [`<a>${'\n<b>'.repeat(300)}`, 'more than 256 deep', 257],
  ];

  it.each(faults.map(([text, says, line]) => [says, line, text] as const))('says: %s, line %i', (says, line, text) => {
    const gate = passGate(Buffer.from(text), new Set());
    expect(gate).toMatchObject({ ok: false, line });
    expect(gate.ok ? '' : gate.says).toContain(says);
  });

  it('is found among ten thousand attributes of one element, by name and by namespace', () => {
    const many = Array.from({ length: 10_000 }, (_, at) => `p:a${String(at)}=""`).join(' ');
    const tag = (last: string): Buffer => Buffer.from(`<r xmlns:p="urn:p" xmlns:q="urn:p" ${many} ${last}/>`);
    expect(passGate(tag('a5000=""'), new Set()).ok).toBe(true);
    expect(passGate(tag('q:a5000=""'), new Set())).toMatchObject({ ok: false, line: 1 });
    expect(passGate(tag('p:a9999=""'), new Set())).toMatchObject({ ok: false, line: 1 });
  });
});
