import { USUAL_STYLE, type XmlStyle } from './xml.js';

/** Everything in which two vendors may differ without saying anything different. */
export interface WriteStyle {
  readonly xml: XmlStyle;
  /** `masterFile1` or something else altogether. */
  readonly ids: 'usual' | 'other';
  /** Frame numbers in the documents are filled with zeros to this length; 0 for none. */
  readonly padFrames: number;
  /** Words put before a section's letter. */
  readonly sectionPrefix: string;
  /** Image metadata in MIX 0.2, as older documents have it, or 2.0. */
  readonly mix: '0.2' | '2.0';
  /** What the supplier puts behind a reel number in page-mods. */
  readonly filmSuffix: string;
  readonly editionDigits: 1 | 2;
  /** Technical metadata of the master file alone, or of all files of a page. */
  readonly technical: 'master' | 'all-files';
}

/** Parts of a style; what is left out is as usual. */
export type WriteOptions = Partial<Omit<WriteStyle, 'xml'>> & { readonly xml?: Partial<XmlStyle> };

/** The usual spelling. */
export const USUAL: WriteStyle = {
  xml: USUAL_STYLE,
  ids: 'usual',
  padFrames: 0,
  sectionPrefix: '',
  mix: '0.2',
  filmSuffix: '-01',
  editionDigits: 1,
  technical: 'master',
};

/** A whole style from its parts. */
export function styleOf(options: WriteOptions): WriteStyle {
  return { ...USUAL, ...options, xml: { ...USUAL_STYLE, ...options.xml } };
}

/** Spellings that must change nothing in what is read, by name. */
export const SPELLINGS: Readonly<Record<string, WriteOptions>> = {
  'other prefixes': { xml: { prefixes: { mets: 'm', mods: 'b', mix: 'x', mix2: 'x', premis: 'p', xlink: 'l', batch: 'q', film: '' } } },
  'default namespaces inside': {
    xml: { prefixes: { mets: '', mods: '', mix: '', mix2: '', premis: '', xlink: 'xlink', batch: '', film: '' }, declareLate: true },
  },
  'attributes turned round': { xml: { attributes: 'reversed' } },
  'declarations everywhere': { xml: { repeatDeclarations: true } },
  'byte order mark': { xml: { byteOrderMark: true } },
  'carriage returns': { xml: { lineEnd: '\r\n' } },
  'no indentation': { xml: { indent: false } },
  'other ids': { ids: 'other' },
  'zeros before frame numbers': { padFrames: 4 },
  'section in words': { sectionPrefix: 'Section ' },
  'newer image metadata': { mix: '2.0' },
  'edition in two digits': { editionDigits: 2 },
};

/** A frame number with zeros in front up to `length` digits, the half kept. */
export function padded(frame: string, length: number): string {
  const digits = /^\d*/.exec(frame)?.[0] ?? '';
  return `${digits.padStart(length, '0')}${frame.slice(digits.length)}`;
}

/** A wording of the programme for what was delivered and what was not. */
export function wording(statement: 'present' | 'published' | 'not-published' | 'unknown', spelling: 'digitized' | 'digitised'): string {
  switch (statement) {
    case 'present':
      return 'Present';
    case 'published':
      return `Not ${spelling}, published`;
    case 'not-published':
      return `Not ${spelling}, not published`;
    case 'unknown':
      return `Not ${spelling}, publication unknown`;
  }
}
