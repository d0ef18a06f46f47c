import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { spoilSome } from './faults/index.js';
import { makeFilm } from './film/make-film.js';
import { randomFrom } from './film/random.js';
import { planOf } from './plan.js';
import { SPELLINGS, type WriteProfile, writeReturn } from './write/index.js';
import { el, USUAL_STYLE, writeXml, xmlText } from './write/xml.js';

/** Parses with a general-purpose namespace-aware parser; gives element names with namespaces, attributes and text, without declarations. */
function parsed(text: string): string[] {
  const parser = new SaxesParser({ xmlns: true });
  const out: string[] = [];
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', (tag) => {
    const attributes = Object.values(tag.attributes)
      .filter((each) => each.prefix !== 'xmlns' && each.name !== 'xmlns')
      .map((each) => `${each.uri}|${each.local}=${each.value}`)
      .sort();
    out.push(`<{${tag.uri}}${tag.local} ${attributes.join(' ')}>`);
  });
  parser.on('text', (piece) => {
    if (piece.trim() !== '') out.push(piece);
  });
  parser.write(text.replace(/^\ufeff/, '')).close();
  return out;
}

const profiles: readonly WriteProfile[] = ['issue-mets', 'page-mods'];

describe('written returns', () => {
  it('are well-formed in every file, with no path twice, for 80 seeds', () => {
    for (let seed = 1; seed <= 80; seed += 1) {
      const film = makeFilm({ seed, pages: 24 });
      const spoilt = seed % 2 === 0 ? null : spoilSome(film, 4, randomFrom(seed));
      for (const profile of profiles) {
        const files = [...writeReturn(spoilt?.plan ?? planOf(film), profile)];
        expect(new Set(files.map((file) => file.path)).size).toBe(files.length);
        const cut = spoilt?.plan.documents.filter((fault) => fault.kind === 'unreadable').length ?? 0;
        const broken = files.filter((file) => {
          try {
            parsed(file.text);
            return false;
          } catch {
            return true;
          }
        });
        expect(broken.length).toBe(cut);
      }
    }
  });

  it.each(profiles)('%s is the same bytes for the same seed', (profile) => {
    const once = JSON.stringify([...writeReturn(planOf(makeFilm({ seed: 5 })), profile)]);
    expect(JSON.stringify([...writeReturn(planOf(makeFilm({ seed: 5 })), profile)])).toBe(once);
  });

  const silent = [
    'other prefixes',
    'default namespaces inside',
    'attributes turned round',
    'declarations everywhere',
    'byte order mark',
    'carriage returns',
    'no indentation',
  ];
  it.each(silent.flatMap((name) => profiles.map((profile) => [name, profile] as const)))(
    '%s changes nothing that a parser hears in %s',
    (name, profile) => {
      const plan = planOf(makeFilm({ seed: 9, pages: 20 }));
      const usual = [...writeReturn(plan, profile)];
      const other = [...writeReturn(plan, profile, SPELLINGS[name])];
      expect(other.map((file) => file.path)).toEqual(usual.map((file) => file.path));
      expect(other.map((file) => file.text)).not.toEqual(usual.map((file) => file.text));
      expect(other.map((file) => parsed(file.text))).toEqual(usual.map((file) => parsed(file.text)));
    },
  );

  it('keeps hostile text whole and drops what XML cannot hold', () => {
    // Character ranges of XML 1.0, production 2 (Char); attribute-value normalisation, section 3.3.3.
    const nasty = 'a & b < c > d "e" \'f\' ]]> \t\n\r -- &amp; \u0085 \u{1F5DE} אב';
    const document = writeXml(el('mods:mods', { note: nasty }, el('mods:title', {}, nasty)), USUAL_STYLE);
    const heard = parsed(document);
    expect(heard).toContain(nasty);
    expect(heard[0]).toContain(`|note=${nasty}`);
    expect(xmlText('a\0b\u001bc\ufffed\ud800e')).toBe('a\ufffdb\ufffdc\ufffdd\ufffde');
  });
});
