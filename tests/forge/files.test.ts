import { createHash } from 'node:crypto';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { faultOf, spoil } from './faults/index.js';
import { makeFilm } from './film/make-film.js';
import { randomFrom } from './film/random.js';
import { drawnOrder } from './ordered.js';
import { planOf } from './plan.js';
import { drawnStyle, folderName, type WriteOptions, type WrittenFile, writeReturn } from './write/index.js';

const hash = (algorithm: 'sha1' | 'sha256', text: string): string => createHash(algorithm).update(text).digest('hex');
const ALL = ['master', 'service', 'derivative', 'ocr'] as const;

interface Tag {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly inside: readonly Tag[];
  text: string;
}

/** Elements of a document in order, with local names, each with the ones it lies in, the nearest first. */
function tags(text: string): Tag[] {
  const parser = new SaxesParser({ xmlns: true });
  const all: Tag[] = [];
  const open: Tag[] = [];
  parser.on('opentag', (tag) => {
    const attributes = Object.fromEntries(Object.values(tag.attributes).map((each) => [each.local, each.value]));
    const made = { name: tag.local, attributes, inside: [...open].reverse(), text: '' };
    all.push(made);
    open.push(made);
  });
  parser.on('text', (piece) => {
    const last = open.at(-1);
    if (last !== undefined) last.text += piece.trim();
  });
  parser.on('closetag', () => void open.pop());
  parser.write(text.replace(/^\ufeff/, '')).close();
  return all;
}

/** What the documents say of each file: its path in the batch, digest and size. */
function statedFiles(
  files: readonly WrittenFile[],
): { readonly path: string; readonly digest: string | null; readonly size: string | null }[] {
  return files
    .filter(({ path, text }) => path.endsWith('.xml') && /<(\w+:)?mets[ >]/.test(text))
    .flatMap(({ path, text }) => {
      const all = tags(text);
      const of = (id: string, name: string): string | null =>
        all.find((tag) => tag.name === name && tag.inside.some((each) => each.attributes['ID'] === id))?.text ?? null;
      return all
        .filter((tag) => tag.name === 'FLocat')
        .map((tag) => {
          const premis = (tag.inside[0]?.attributes['ADMID'] ?? '').split(' ').at(-1) ?? '';
          const href = tag.attributes['href'] ?? '';
          const place = new URL(href, `file:///${path}`).pathname.slice(1);
          return { path: place, digest: of(premis, 'messageDigest'), size: of(premis, 'size') };
        });
    });
}

const written = (seed: number, options: WriteOptions, profile: 'issue-mets' | 'page-mods' = 'issue-mets'): WrittenFile[] => [
  ...writeReturn(planOf(makeFilm({ seed, pages: 24 }), { targetsListed: true }), profile, options),
];

describe('the files of a return', () => {
  it.each([1, 2, 3, 4, 5, 6])('seed %i: checked documents give digest and size of every file as it lies there', (seed) => {
    const files = written(seed, { documents: 'validated', files: ALL, hrefPrefix: seed % 2 === 0 ? './' : '' });
    const there = new Map(files.map(({ path, text }) => [path, text]));
    const stated = statedFiles(files);
    expect(stated.length).toBeGreaterThan(80);
    for (const { path, digest, size } of stated) {
      const text = there.get(path);
      expect(text, path).toBeDefined();
      expect([digest, size]).toEqual([hash('sha1', text ?? ''), String(Buffer.byteLength(text ?? ''))]);
    }
    const named = new Set(stated.map(({ path }) => path));
    const unnamed = files.filter(({ path }) => !named.has(path)).map(({ path }) => path);
    expect(unnamed.every((path) => path.endsWith('_1.xml'))).toBe(true);
  });

  it('are another for another picture and the same for a picture that was copied over it', () => {
    const digests = statedFiles(written(4, { documents: 'validated', files: ALL })).map(({ digest }) => digest);
    expect(new Set(digests).size).toBe(digests.length);
    const films = Array.from({ length: 20 }, (_, i) => makeFilm({ seed: i + 1, pages: 24 }));
    const spoilt = films.flatMap((film) => spoil(film, faultOf('same-image-twice'), randomFrom(film.seed)) ?? [])[0];
    const twice = [...writeReturn(spoilt!.plan, 'issue-mets', { documents: 'validated', files: ALL })];
    const masters = twice.filter(({ path }) => path.endsWith('.tif'));
    expect(new Set(masters.map(({ text }) => text)).size).toBe(masters.length - 1);
    const stated = statedFiles(twice).filter(({ path }) => path.endsWith('.tif'));
    expect(new Set(stated.map(({ digest }) => digest)).size).toBe(masters.length - 1);
  });

  it("stand in page-mods beside the page with image, text and image metadata, whose digest is the image's", () => {
    const files = written(3, { files: ALL, scannerTargets: 2 }, 'page-mods');
    const there = new Map(files.map(({ path, text }) => [path, text]));
    const images = files.filter(({ path }) => path.endsWith('.jp2'));
    for (const { path, text } of images) {
      const mix = there.get(path.replace(/jp2$/, 'mix.xml')) ?? '';
      expect(tags(mix).find((tag) => tag.name === 'messageDigest')?.text).toBe(hash('sha1', text));
    }
    const pages = files.filter(({ path }) => path.endsWith('.mods.xml') && !/-X\d{4}\./.test(path));
    for (const { path } of pages)
      for (const ending of ['jp2', 'alto.xml', 'mix.xml']) expect(there.has(path.replace('mods.xml', ending))).toBe(true);
    const folders = new Set(images.map(({ path }) => path.split('/').at(-2)));
    for (const folder of ['FILM-ISO-target', 'UNMATCHED', 'WORKSHIFT-ISO-TARGET']) expect(folders).toContain(folder);
  });
});

describe('a reel document', () => {
  it('is as published ones are: its number the LABEL, no section of its own, scanner targets without frame numbers', () => {
    const files = written(2, { scannerTargets: 2 });
    const reels = files.filter(({ path }) => /\/(\w+)\/\1\.xml$/.test(path) && !/\/\d{10}\.xml$/.test(path));
    expect(reels.length).toBeGreaterThan(0);
    for (const { path, text } of reels) {
      const all = tags(text);
      expect(all[0]?.attributes['TYPE']).toMatch(/:microfilmReel$/);
      expect(path).toContain(`/${all[0]?.attributes['LABEL'] ?? '?'}.xml`);
      const divs = all.filter((tag) => tag.name === 'div');
      expect(divs.filter((tag) => tag.attributes['TYPE'] === 'np:reel').map((tag) => tag.attributes['DMDID'])).toEqual([undefined]);
      const scanner = divs.filter((tag) => tag.inside[0]?.attributes['TYPE'] === 'np:techtargetreel');
      const film = divs.filter((tag) => tag.attributes['TYPE'] === 'np:target' && !scanner.includes(tag));
      expect(scanner.length).toBe(2);
      expect(film.length).toBeGreaterThan(1);
      const frames = (tag: Tag): number =>
        all.filter(
          (each) =>
            each.attributes['type'] === 'reel sequence number' &&
            each.inside.some((one) => one.attributes['ID'] === tag.attributes['DMDID']),
        ).length;
      expect(scanner.map(frames)).toEqual([0, 0]);
      expect(film.map(frames)).toEqual(film.map(() => 1));
    }
  });
});

describe('a wrapped return', () => {
  it('is a bag whose manifest holds for every payload file', () => {
    const files = written(5, { wrapping: 'bag', files: ALL });
    const manifest = files.find(({ path }) => path === 'manifest-sha256.txt')?.text ?? '';
    const payload = files.filter(({ path }) => path.startsWith('data/'));
    const lines = payload.map(({ path, text }) => `${hash('sha256', text)}  ${path}`).sort();
    expect(manifest.trimEnd().split('\n')).toEqual(lines);
    const octets = payload.reduce((sum, { text }) => sum + Buffer.byteLength(text), 0);
    expect(files.find(({ path }) => path === 'bag-info.txt')?.text).toContain(`Payload-Oxum: ${octets}.${payload.length}\n`);
  });

  it('keeps the name of the batch in the manifest, whatever its folder is called', () => {
    const plan = planOf(makeFilm({ seed: 5 }));
    expect(folderName(plan, { folder: 'versioned' })).toBe(`${plan.batch}_ver01`);
    const files = [...writeReturn(plan, 'issue-mets', { wrapping: 'payload', manifestName: 'batch.xml', listedPaths: 'batch' })];
    const manifest = files.find(({ path }) => path === 'data/batch.xml')?.text ?? '';
    expect(tags(manifest)[0]?.attributes['name']).toBe(plan.batch);
    expect(tags(manifest).find((tag) => tag.name === 'issue')?.text).toMatch(new RegExp(`^\\.\\./${plan.batch}/`));
  });
});

describe('documents in both states', () => {
  it('say the same of every issue, page and target; only digests, sizes and the signature are added', () => {
    const files = written(8, { documents: 'both' });
    const facts = (text: string): string[] =>
      tags(text)
        .filter((tag) => tag.inside.some((each) => each.name === 'dmdSec' || each.name === 'structMap'))
        .map((tag) => `${tag.name} ${tag.text} ${JSON.stringify(tag.attributes)}`);
    const twins = files.filter(({ path }) => path.endsWith('_1.xml'));
    expect(twins.length).toBe(files.length / 2);
    for (const { path, text } of twins) {
      const plain = files.find((file) => file.path === path.replace('_1.xml', '.xml'))?.text ?? '';
      expect(facts(plain)).toEqual(facts(text));
      expect(plain).not.toContain('messageDigest');
      if (!path.startsWith('BATCH')) expect(text).toContain('RECORDSTATUS="Validated"');
    }
  });
});

describe('what is drawn from a seed', () => {
  const seeds = Array.from({ length: 300 }, (_, seed) => seed);
  /** Every value that each key takes, in order. */
  const values = (drawn: readonly object[]): Record<string, string[]> => {
    const seen = new Map<string, Set<string>>();
    for (const one of drawn)
      for (const [key, value] of Object.entries(one)) seen.set(key, (seen.get(key) ?? new Set()).add(JSON.stringify(value)));
    return Object.fromEntries([...seen].map(([key, all]) => [key, [...all].sort()]));
  };

  it('is every way of writing', () => {
    const drawn = values(seeds.map(drawnStyle));
    for (const [key, all] of Object.entries(drawn)) expect(all.length, key).toBeGreaterThan(1);
    expect(drawn['documents']).toEqual(['"both"', '"plain"', '"validated"']);
    expect(drawn['wrapping']).toEqual(['"bag"', '"none"', '"payload"']);
    expect(drawn['files']?.length).toBe(3);
  });

  it('is every value of every policy that a vendor can follow', () => {
    const drawn = values(seeds.map((seed) => drawnOrder(seed).policies));
    expect(drawn['pageNumber']).toEqual(['"either"', '"intended"', '"printed"']);
    expect(drawn['targets']).toEqual(['"either"', '"listed"', '"not-listed"']);
    expect(drawn['splitExposures']).toEqual(['"lettered"', '"separate"']);
    expect(Object.keys(drawn).length).toBe(9);
  });
});
