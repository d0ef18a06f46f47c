import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { XmlDocument, type XmlNode, XsdValidator } from 'libxml2-wasm';
import { describe, expect, it } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import { render } from '../../src/report/index.js';
import { xmlText } from '../../src/report/xml/escape.js';
import { EXAMPLE } from './example.js';
import { HOSTILE, HOSTILE_RESULT, STEERING } from './hostile.js';

const NS = { d: 'urn:reeltally:discrepancies:1' };
const schema = XmlDocument.fromString(readFileSync(fileURLToPath(new URL('../../schemas/discrepancies.xsd', import.meta.url)), 'utf8'));

/** Parses with libxml2, which is not the library that wrote the document, and holds it against the published schema. */
async function parsed(result: Findings): Promise<{ xml: string; document: XmlDocument }> {
  const xml = String(await render(result, 'xml'));
  const document = XmlDocument.fromString(xml);
  XsdValidator.fromDoc(schema).validate(document);
  return { xml, document };
}

const contents = (document: XmlDocument, path: string): string[] => document.find(path, NS).map((node: XmlNode) => node.content);

describe('the list as XML', () => {
  it('agrees with its schema and lists every finding worst first', async () => {
    const { document } = await parsed(EXAMPLE);
    expect(contents(document, '/d:discrepancies/d:discrepancy/@code')).toEqual([
      'date-differs',
      'issue-split',
      'frame-not-scanned',
      'page-not-in-collation',
      'issue-number-differs',
    ]);
    expect(contents(document, '//d:discrepancy[@code="frame-not-scanned"]/d:instruction')).toEqual([
      'Renumber frames 42 to 812 by +1; no rescan is needed.',
    ]);
    expect(contents(document, '//d:frame')).toEqual(['00417:811', '00417:812', '00418:1', '00418:2']);
    expect(contents(document, '/d:discrepancies/@verdict')).toEqual(['return-for-rework']);
    expect(contents(document, '//d:unchecked')).toEqual(['there are no image files in this copy.']);
  });

  it('the schema refuses what it does not describe', async () => {
    const xml = String(await render(EXAMPLE, 'xml'));
    for (const broken of [
      xml.replace('severity="critical"', 'severity="bad"'),
      xml.replace('<says>', '<saying/><says>'),
      xml.replace(' id="', ' key="'),
    ]) {
      expect(broken).not.toBe(xml);
      expect(() => XsdValidator.fromDoc(schema).validate(XmlDocument.fromString(broken))).toThrow();
    }
  });
});

describe('hostile text in the XML', () => {
  // XML 1.0 fifth edition, section 2.2: these cannot stand in a document at all.

  const illegal = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Cs}/gu;

  it('stays well formed and comes back as it was, but for what XML cannot hold', async () => {
    const { xml, document } = await parsed(HOSTILE_RESULT);
    const wanted = Object.values(HOSTILE).map((text) => text.replace(illegal, '\ufffd'));
    for (const path of [
      'd:says',
      'd:instruction',
      'd:evidence',
      'd:readings/d:record',
      'd:alternative/d:says',
      'd:answer',
      '@reel',
      '@at',
      'd:issue/@page',
      'd:place/@document',
    ]) {
      expect(contents(document, `//d:discrepancy/${path}`)).toEqual(wanted);
    }
    expect(STEERING.exec(xml)).toBeNull();
  });

  it('is written as character references', () => {
    expect(xmlText('a&b;c &amp; <x> "q"\n\r\t\u202e')).toBe('a&#38;b;c &#38;amp; &#60;x&#62; &#34;q&#34;&#10;&#13;&#9;&#8238;');
    expect(xmlText('\u0000\u001b\ud800')).toBe('\ufffd\ufffd\ufffd');
  });
});
