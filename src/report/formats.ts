import type { Findings } from '../model/findings.js';
import type { PicturesFile } from '../model/pictures.js';

/** How a report may be written; each format heeds what concerns it. */
export interface RenderOptions {
  /** text: colour the verdict and the severities with terminal escapes. Nothing depends on it. */
  readonly colour?: boolean;
  /** text: width of a line in columns, 80 when left out. */
  readonly width?: number;
  /** html: address of the batch's folder, as it is written in a link, so that its files can be opened. Left out, paths are text. */
  readonly batch?: string;
  /** html: the small pictures that lie beside the report, and why there is none of other files. */
  readonly pictures?: PicturesFile;
}

/** A way to write a saved result. */
export interface Format {
  readonly name: string;
  /** Name of the file in a folder of results. */
  readonly file: string;
  /** Brings the renderer in when it is needed: a format's libraries cost time to load. */
  readonly load: () => Promise<(findings: Findings, options: RenderOptions) => Report | Promise<Report>>;
}

/** A finished report: text to be written as UTF-8, or bytes. */
export type Report = string | Uint8Array;

/** Every format; its name is the choice on the command line. To add one: a file and a line. */
export const FORMATS = [
  { name: 'text', file: 'summary.txt', load: async () => (await import('./text/index.js')).renderText },
  { name: 'json', file: 'findings.json', load: async () => (await import('./json.js')).renderJson },
  { name: 'jsonl', file: 'summary.jsonl', load: async () => (await import('./jsonl.js')).renderJsonl },
  { name: 'csv', file: 'discrepancies.csv', load: async () => (await import('./csv.js')).renderCsv },
  { name: 'xlsx', file: 'discrepancies.xlsx', load: async () => (await import('./xlsx/index.js')).renderXlsx },
  { name: 'html', file: 'report.html', load: async () => (await import('./html/index.js')).renderHtml },
  { name: 'xml', file: 'discrepancies.xml', load: async () => (await import('./xml/index.js')).renderXml },
] as const satisfies readonly Format[];

/** The name of a format. */
export type FormatName = (typeof FORMATS)[number]['name'];
