import { randomFrom } from '../film/random.js';
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
  /** Digest, size and pixels in issue-mets: of no file, of the master, or of all files of a page. */
  readonly technical: 'none' | 'master' | 'all-files';
  /** In issue-mets: documents as the vendor wrote them; as they were checked, named `_1`, with the technical metadata of all files; or both beside each other. */
  readonly documents: 'plain' | 'validated' | 'both';
  /** True in a document that was checked; set by the writer. */
  readonly validated: boolean;
  readonly manifestName: 'BATCH.xml' | 'batch.xml';
  /** What the manifest writes before the path of a document; `batch` is the name of the batch, one folder up. */
  readonly listedPaths: './' | '' | 'batch';
  /** What a document writes before the name of a file. */
  readonly hrefPrefix: '' | './';
  /** The files that came, by use; the documents name them all. In page-mods `service` is the image and `ocr` the text. */
  readonly files: readonly ('master' | 'service' | 'derivative' | 'ocr')[];
  /** Targets of the scanner in each reel document, and in page-mods of the work shift. */
  readonly scannerTargets: 0 | 1 | 2;
  /** A reel's number as folder, file name, LABEL and in the manifest: as in the MODS sections, or filled with zeros to the 11 characters of the box. */
  readonly reelPlace: 'as-number' | 'eleven';
  readonly location: boolean;
  readonly sourceForm: boolean;
  readonly capitalCode: boolean;
  /** The position of images on the film in small letters, `1a`. */
  readonly smallPosition: boolean;
  /** The batch folder: called like the batch, or with the version of the copy behind its name. */
  readonly folder: 'batch' | 'versioned';
  /** The batch itself, its payload in a folder `data`, or a bag (RFC 8493). */
  readonly wrapping: 'none' | 'payload' | 'bag';
}

/** Parts of a style; what is left out is as usual. */
export type WriteOptions = Partial<Omit<WriteStyle, 'xml' | 'validated'>> & { readonly xml?: Partial<XmlStyle> };

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
  documents: 'plain',
  validated: false,
  manifestName: 'BATCH.xml',
  listedPaths: './',
  hrefPrefix: '',
  files: [],
  scannerTargets: 1,
  reelPlace: 'as-number',
  location: true,
  sourceForm: true,
  capitalCode: false,
  smallPosition: false,
  folder: 'batch',
  wrapping: 'none',
};

/** A whole style from its parts. */
export function styleOf(options: WriteOptions): WriteStyle {
  return { ...USUAL, ...options, xml: { ...USUAL_STYLE, ...options.xml } };
}

/** Spellings that must change nothing in what is read, by name. */
export const SPELLINGS: Readonly<Record<string, WriteOptions>> = {
  'other prefixes': {
    xml: { prefixes: { mets: 'm', mods: 'b', mix: 'x', mix2: 'x', premis: 'p', xlink: 'l', batch: 'q', film: '', alto: 'a', dsig: 's' } },
  },
  'default namespaces inside': {
    xml: {
      prefixes: { mets: '', mods: '', mix: '', mix2: '', premis: '', xlink: 'xlink', batch: '', film: '', alto: '', dsig: '' },
      declareLate: true,
    },
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
  'checked documents': { documents: 'validated' },
  'checked documents beside those of the vendor': { documents: 'both' },
  'a manifest in small letters that names the batch folder': { manifestName: 'batch.xml', listedPaths: 'batch' },
  'files named from the folder on': { hrefPrefix: './', listedPaths: '' },
  'no scanner targets': { scannerTargets: 0 },
  'reel numbers of eleven characters': { reelPlace: 'eleven' },
  'a code in capitals': { capitalCode: true },
  'neither place nor form': { location: false, sourceForm: false },
};

/** A style drawn from a seed: everything in which returns that say the same differ, file by file on the disk. */
export function drawnStyle(seed: number): WriteOptions {
  const random = randomFrom(seed ^ 0x5eed);
  const spellings = Object.values(SPELLINGS).filter(({ xml }) => xml !== undefined);
  const xml = random.chance(500) ? {} : (random.pick(spellings).xml ?? {});
  return {
    xml: { ...xml, ...(random.chance(100) ? { repeatDeclarations: true } : {}) },
    ids: random.chance(200) ? 'other' : 'usual',
    padFrames: random.chance(200) ? 4 : 0,
    sectionPrefix: random.chance(300) ? 'Section ' : '',
    mix: random.chance(200) ? '2.0' : '0.2',
    filmSuffix: random.pick(['', '-01', '-12']),
    editionDigits: random.pick([1, 2]),
    documents: random.pick(['plain', 'validated', 'both']),
    manifestName: random.pick(['BATCH.xml', 'batch.xml']),
    listedPaths: random.pick(['./', '', 'batch']),
    hrefPrefix: random.pick(['', './']),
    files: random.pick([['master', 'service', 'derivative', 'ocr'], ['master', 'service', 'derivative', 'ocr'], ['service', 'ocr'], []]),
    scannerTargets: random.pick([0, 1, 2]),
    reelPlace: random.pick(['as-number', 'eleven']),
    location: random.chance(850),
    sourceForm: random.chance(850),
    capitalCode: random.chance(300),
    smallPosition: random.chance(500),
    folder: random.pick(['batch', 'versioned']),
    wrapping: random.pick(['none', 'payload', 'bag']),
  };
}

/** A reel's number where it names a place. */
export function reelAsPlace(number: string, style: WriteStyle): string {
  return style.reelPlace === 'eleven' ? number.padStart(11, '0') : number;
}

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
