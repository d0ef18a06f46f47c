import { strToU8, type Zippable, zipSync } from 'fflate';

/** A workbook put together from hand-written parts after ECMA-376 part 1, with the general ZIP writer of fflate: nothing of it comes from the program under test. */
export interface Parts {
  /** Inner XML of `worksheet`, by sheet name. */
  readonly sheets: Readonly<Record<string, string>>;
  /** Attributes of a `sheet` in the workbook, such as `state="hidden"`. */
  readonly states?: Readonly<Record<string, string>>;
  readonly workbookPr?: string;
  readonly strings?: readonly string[];
  readonly styles?: string;
  readonly app?: string;
  readonly strict?: boolean;
  /** Further or other parts by name. */
  readonly more?: Readonly<Record<string, string | Uint8Array | null>>;
}

const TRANSITIONAL = {
  main: 'http://schemas.openxmlformats.org/spreadsheetml/2006/main',
  relations: 'http://schemas.openxmlformats.org/officeDocument/2006/relationships',
  app: 'http://schemas.openxmlformats.org/officeDocument/2006/extended-properties',
  appType: 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/extended-properties',
};
/** ISO/IEC 29500-1:2016, annex A: the namespaces of the strict form. */
const STRICT = {
  main: 'http://purl.oclc.org/ooxml/spreadsheetml/main',
  relations: 'http://purl.oclc.org/ooxml/officeDocument/relationships',
  app: 'http://purl.oclc.org/ooxml/officeDocument/extendedProperties',
  appType: 'http://purl.oclc.org/ooxml/officeDocument/relationships/extendedProperties',
};

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

/** The parts of a workbook by name. */
export function partsOf(parts: Parts): Record<string, Uint8Array> {
  const ns = parts.strict === true ? STRICT : TRANSITIONAL;
  const names = Object.keys(parts.sheets);
  const relation = (id: string, type: string, target: string): string => `<Relationship Id="${id}" Type="${type}" Target="${target}"/>`;
  const relations = (inner: string): string =>
    `${HEAD}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${inner}</Relationships>`;
  const texts: Record<string, string | Uint8Array | null> = {
    '[Content_Types].xml': `${HEAD}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`,
    '_rels/.rels': relations(
      relation('rId1', `${ns.relations}/officeDocument`, 'xl/workbook.xml') + relation('rId2', ns.appType, 'docProps/app.xml'),
    ),
    'docProps/app.xml': `${HEAD}<Properties xmlns="${ns.app}"><Application>${parts.app ?? 'Microsoft Excel'}</Application></Properties>`,
    'xl/workbook.xml': `${HEAD}<workbook xmlns="${ns.main}" xmlns:r="${ns.relations}"><workbookPr ${parts.workbookPr ?? ''}/><sheets>${names
      .map((name, at) => `<sheet name="${name}" sheetId="${String(at + 1)}" ${parts.states?.[name] ?? ''} r:id="rId${String(at + 1)}"/>`)
      .join('')}</sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': relations(
      names
        .map((_, at) => relation(`rId${String(at + 1)}`, `${ns.relations}/worksheet`, `worksheets/sheet${String(at + 1)}.xml`))
        .join('') +
        relation('rId100', `${ns.relations}/styles`, '/xl/styles.xml') +
        relation('rId101', `${ns.relations}/sharedStrings`, 'sharedStrings.xml'),
    ),
    'xl/styles.xml': `${HEAD}<styleSheet xmlns="${ns.main}">${parts.styles ?? '<cellXfs><xf numFmtId="0"/></cellXfs>'}</styleSheet>`,
    'xl/sharedStrings.xml': `${HEAD}<sst xmlns="${ns.main}">${(parts.strings ?? []).map((inner) => `<si>${inner}</si>`).join('')}</sst>`,
    ...Object.fromEntries(
      names.map((name, at) => [
        `xl/worksheets/sheet${String(at + 1)}.xml`,
        `${HEAD}<worksheet xmlns="${ns.main}" xmlns:x="urn:other">${parts.sheets[name] ?? ''}</worksheet>`,
      ]),
    ),
    ...parts.more,
  };
  return Object.fromEntries(
    Object.entries(texts).flatMap(([name, text]) => (text === null ? [] : [[name, typeof text === 'string' ? strToU8(text) : text]])),
  );
}

/** The bytes of a workbook. */
export function bookOf(parts: Parts): Buffer {
  return packed(partsOf(parts));
}

/** The bytes of an archive of such parts. */
export function packed(parts: Zippable): Buffer {
  return Buffer.from(zipSync(parts, { mtime: '1980-01-01T12:00:00' }));
}

/** Rows of `c` elements as the inner XML of a worksheet. */
export function rows(...cells: readonly string[]): string {
  return `<sheetData>${cells.map((row, at) => `<row r="${String(at + 1)}">${row}</row>`).join('')}</sheetData>`;
}

/** A cell whose text stands in it. */
export function text(address: string, value: string): string {
  return `<c r="${address}" t="inlineStr"><is><t xml:space="preserve">${value}</t></is></c>`;
}
