import fc from 'fast-check';
import { XmlDocument } from 'libxml2-wasm';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { toUtf8 } from '../../src/read/decode.js';
import { treeOf } from '../../src/read/xml.js';
import { attributeText } from '../../src/read/xml-attributes.js';
import { passGate } from '../../src/read/xml-gate.js';
import { scanXml } from '../../src/read/xml-scan.js';
import { decodeReferences } from '../../src/read/xml-text.js';
import { collapsed, type XmlElement } from '../../src/read/xml-tree.js';
import { testsWithoutDoctype } from './w3c-suite.js';

function faultOf(bytes: Buffer): string | null {
  const decoded = toUtf8(bytes);
  if (!decoded.ok) return decoded.says;
  const gate = passGate(decoded.utf8, new Set());
  return gate.ok ? null : gate.says;
}

describe('the W3C XML Conformance Test Suite, documents without a DOCTYPE', () => {
  const tests = testsWithoutDoctype();

  it('is there', () => {
    expect(tests.filter((test) => test.type === 'not-wf').length).toBeGreaterThanOrEqual(228);
  });

  it('has no ill-formed document that is let through', () => {
    const accepted = tests.filter((test) => test.type === 'not-wf' && faultOf(test.bytes) === null);
    expect(accepted.map((test) => test.id)).toEqual([]);
  });

  it('has no well-formed document that is refused, but for two whose names break Namespaces in XML 1.0', () => {
    const refused = tests.filter((test) => (test.type === 'valid' || test.type === 'invalid') && faultOf(test.bytes) !== null);
    expect(refused.map((test) => test.id)).toEqual(['o-p04pass1', 'o-p05pass1']);
  });
});

const sample = `<?xml version="1.0" encoding="UTF-8"?>\r
<a:r xmlns:a="urn:u" xmlns:b="urn:v" a:x="1" b:x='&#233;2' y="&lt;é"><!-- c --><?pi d?><b:e/><![CDATA[x]]y]]><f xmlns="urn:q">t&amp;é</f></a:r>
`;

describe('small changes to a document', () => {
  const pieces = [
    '<',
    '>',
    '/',
    '&',
    '"',
    "'",
    ' ',
    '=',
    '-->',
    '<!--',
    ']]>',
    '<![CDATA[',
    '&amp;',
    '&#0;',
    '&#x1f;',
    '\0',
    'é',
    '\ufffe',
    'a:',
    '?>',
    '<?',
  ];
  const change = fc.record({
    at: fc.nat(),
    remove: fc.nat(3),
    insert: fc.oneof(fc.constantFrom(...pieces), fc.constant('')),
    byte: fc.option(fc.nat(255)),
  });

  it('are judged as libxml2 judges them', () => {
    const differ: string[] = [];
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), (changes) => {
        let bytes = Buffer.from(sample);
        for (const { at, remove, insert, byte } of changes) {
          const from = at % bytes.length;
          bytes = Buffer.concat([
            bytes.subarray(0, from),
            Buffer.from(insert),
            byte === null ? Buffer.alloc(0) : Buffer.from([byte]),
            bytes.subarray(from + remove),
          ]);
        }
        const own = faultOf(bytes);
        const reference = libxmlFault(bytes);
        if ((own === null) !== (reference === null))
          differ.push(`${JSON.stringify(bytes.toString('latin1'))}: ours ${String(own)}, libxml2 ${String(reference)}`);
      }),
      { numRuns: 6000, seed: 1907 },
    );
    expect(differ).toEqual([]);
  });

  it('that cut a document off at any byte are noticed', () => {
    const bytes = Buffer.from(sample.trimEnd());
    for (let length = 0; length < bytes.length; length += 1)
      expect(faultOf(bytes.subarray(0, length)), `cut at ${String(length)}`).not.toBeNull();
  });
});

/** What libxml2 says against a document; that a namespace name is no URI is no fault of well-formedness. */
function libxmlFault(bytes: Buffer): string | null {
  try {
    XmlDocument.fromBuffer(bytes).dispose();
    return null;
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    const lines = message.split('\n').filter((line) => line.trim() !== '' && !/is not a valid URI|is not absolute/.test(line));
    return lines.length === 0 ? null : lines.join(' ');
  }
}

const word = fc.string({
  unit: fc.constantFrom('a', 'B', '0', 'é', '漢', '𝒳', ' ', '\t', '\n', '&', '<', '"', "'", ']', '>'),
  maxLength: 8,
});
const name = fc.constantFrom('a', 'b', 'p:c', 'p:d', 'é', 'x-1');
const element: fc.Arbitrary<string> = fc.letrec<{ node: string }>((tie) => ({
  node: fc.oneof(
    { maxDepth: 4 },
    word.map(escaped),
    word.map((text) => `<![CDATA[${text.replaceAll(']]>', '')}]]>`),
    fc.constant('<!-- <a> & -->'),
    fc.constant("<?note it's?>"),
    fc
      .tuple(
        name,
        fc.uniqueArray(name, { maxLength: 3 }),
        fc.array(word, { minLength: 3, maxLength: 3 }),
        fc.array(tie('node'), { maxLength: 4 }),
      )
      .map(
        ([tag, attributes, values, inside]) =>
          `<${tag}${attributes
            .map(
              (attribute, at) =>
                ` ${attribute}="${escaped(values[at] ?? '')
                  .replaceAll('"', '&quot;')
                  .replace(/[\t\n]/g, ' ')}"`,
            )
            .join('')}>${inside.join('')}</${tag}>`,
      ),
  ),
})).node;

function escaped(text: string): string {
  return text.replaceAll('&', '&#38;').replaceAll('<', '&lt;').replaceAll(']', '&#x5D;');
}

describe('well-formed documents', () => {
  const documents = fc.array(element, { maxLength: 4 }).map((inside) => `<p:r xmlns:p="urn:p">${inside.join('')}</p:r>`);

  it('are read by the scan as saxes reads them', () => {
    fc.assert(
      fc.property(documents, (text) => {
        expect(scanEvents(text)).toEqual(saxesEvents(text));
      }),
      { numRuns: 1500, seed: 1907 },
    );
  });

  const treeBy = (text: string): XmlElement => {
    const gate = passGate(Buffer.from(text), new Set());
    if (!gate.ok) throw new Error(gate.says);
    return treeOf(Buffer.from(text), gate);
  };

  it('become the tree that saxes would make where they are a manifest, which the parser reads', () => {
    fc.assert(
      fc.property(documents, (text) => {
        const manifest = text.replaceAll(/p:r(?=[ >])/g, 'p:batch');
        expect(outline(treeBy(manifest))).toEqual(saxesOutline(manifest));
      }),
      { numRuns: 1500, seed: 1907 },
    );
  });

  it('become the same tree, but for white space between tags, where they are anything else', () => {
    const section = fc.constantFrom('dmdSec', 'fileSec', 'structMap', 'metsHdr', 'q:dmdSec');
    const content = fc
      .tuple(section, fc.array(element, { maxLength: 3 }))
      .map(([tag, inside]) => (inside.length === 0 ? `<${tag}/>` : `<${tag} ID="i">${inside.join('')}</${tag}>`));
    const others = fc
      .tuple(fc.constantFrom('mets', 'mods', 'mix', 'q', 'Batch'), fc.array(content, { maxLength: 5 }))
      .map(([root, inside]) => `<q:${root} xmlns:q="urn:q" xmlns:p="urn:p">\n${inside.join('\n  ')}</q:${root}>`);
    fc.assert(
      fc.property(others, (text) => {
        expect(tidy(outline(treeBy(text)))).toEqual(tidy(saxesOutline(text)));
      }),
      { numRuns: 2500, seed: 1907 },
    );
  });
});

describe('a document that would swell', () => {
  const says = (text: string, wanted: readonly string[] = []): string | null => {
    const gate = passGate(Buffer.from(text), new Set(wanted));
    return gate.ok ? null : gate.says;
  };
  const most = 1_000_000;

  it('is refused above a million bytes of text in one element, in one piece or in many, and read up to that', () => {
    const tooMuch = 'It holds more than 1000000 bytes of text in one element, and no document of a newspaper does.';
    expect(says(`<r><a>${'x'.repeat(most)}</a></r>`)).toBeNull();
    expect(says(`<r><a>${'x'.repeat(most + 1)}</a></r>`)).toBe(tooMuch);
    expect(says(`<r>${'<!-- -->x'.repeat(most + 1)}</r>`)).toBe(tooMuch);
    expect(says(`<r><![CDATA[${'x'.repeat(most + 1)}]]></r>`)).toBe(tooMuch);
    expect(says(`<mets><amdSec><size>${'1'.repeat(most + 1)}</size></amdSec></mets>`, ['size'])).toBe(tooMuch);
  });

  it('is read where the text is white space, a file in Base64 or in a section of which nothing is taken', () => {
    expect(says(`<r>${' '.repeat(most + 1)}</r>`)).toBeNull();
    expect(says(`<mets><file><FContent><binData>${'A'.repeat(most + 1)}</binData></FContent></file></mets>`)).toBeNull();
    expect(says(`<mets><amdSec><note>${'x'.repeat(most + 1)}</note></amdSec></mets>`, ['size'])).toBeNull();
  });

  it('is refused above a million bytes in one attribute', () => {
    expect(says(`<r a="${'x'.repeat(most)}"/>`)).toBeNull();
    expect(says(`<r a="${'x'.repeat(most + 1)}"/>`)).toBe(
      'It holds more than 1000000 bytes of text in one attribute, and no document of a newspaper does.',
    );
  });

  it('is refused above two million elements and attributes', () => {
    expect(says(`<mets><amdSec>${'<a/>'.repeat(1_999_998)}</amdSec></mets>`)).toBeNull();
    expect(says(`<mets><amdSec>${'<a b=""/>'.repeat(1_000_000)}</amdSec></mets>`)).toBe(
      'It has more than 2000000 elements and attributes, and no document of a newspaper does.',
    );
  });
});

/** The same with the white space that sets tags apart left out, which a taken section may lack. */
function tidy(tree: Outline): Outline {
  return { ...tree, text: collapsed(tree.text), children: tree.children.map(tidy) };
}

function scanEvents(text: string): readonly string[] {
  const events: string[] = [];
  let pending = '';
  const flush = (): void => {
    if (pending !== '') events.push(`text ${pending}`);
    pending = '';
  };
  const fault = scanXml(Buffer.from(text), {
    open: (scan, opened) => {
      flush();
      const attributes = ['a', 'b', 'c', 'd', 'é', 'x-1', 'k'].map((local) => `${local}=${String(attributeText(scan, local))}`);
      events.push(`open ${opened.local} ${attributes.join(' ')}`);
    },
    text: (scan, from, to, literal) => {
      const piece = scan.bytes.toString('utf8', from, to);
      pending += literal ? piece : decodeReferences(piece);
    },
    close: (_scan, closed) => {
      flush();
      events.push(`close ${closed.local}`);
    },
    instruction: () => undefined,
  });
  return fault === null ? events : [...events, fault.says];
}

function saxesEvents(text: string): readonly string[] {
  const events: string[] = [];
  let pending = '';
  const flush = (): void => {
    if (pending !== '') events.push(`text ${pending}`);
    pending = '';
  };
  const parser = new SaxesParser({ xmlns: true });
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', (tag) => {
    flush();
    const value = (local: string): string => {
      const all = Object.values(tag.attributes).filter((attribute) => attribute.local === local && attribute.prefix !== 'xmlns');
      return (all.find((attribute) => attribute.prefix === '') ?? all[0])?.value ?? 'null';
    };
    events.push(`open ${tag.local} ${['a', 'b', 'c', 'd', 'é', 'x-1', 'k'].map((local) => `${local}=${value(local)}`).join(' ')}`);
  });
  const add = (piece: string): void => {
    pending += piece;
  };
  parser.on('text', add);
  parser.on('cdata', add);
  parser.on('closetag', (tag) => {
    flush();
    events.push(`close ${tag.local}`);
  });
  parser.write(text).close();
  return events;
}

interface Outline {
  readonly name: string;
  readonly attributes: readonly string[];
  readonly text: string;
  readonly children: readonly Outline[];
}

function outline(tree: XmlElement): Outline {
  return {
    name: tree.name,
    attributes: tree.attributes.map(({ prefix, name: local, value }) => `${prefix}:${local}=${value}`),
    text: tree.text,
    children: tree.children.map(outline),
  };
}

function saxesOutline(text: string): Outline {
  interface Open {
    name: string;
    attributes: string[];
    text: string;
    children: Open[];
  }
  const stack: Open[] = [{ name: '', attributes: [], text: '', children: [] }];
  const parser = new SaxesParser({ xmlns: true });
  parser.on('opentag', (tag) => {
    const attributes = Object.values(tag.attributes)
      .filter((attribute) => attribute.prefix !== 'xmlns')
      .map((attribute) => `${attribute.prefix}:${attribute.local}=${attribute.value}`);
    const open: Open = { name: tag.local, attributes, text: '', children: [] };
    stack.at(-1)!.children.push(open);
    stack.push(open);
  });
  const add = (piece: string): void => {
    stack.at(-1)!.text += piece;
  };
  parser.on('text', add);
  parser.on('cdata', add);
  parser.on('closetag', () => {
    stack.pop();
  });
  parser.write(text).close();
  return stack[0]!.children[0]!;
}
