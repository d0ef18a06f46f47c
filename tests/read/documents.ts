/** How the same facts are spelt: two programs never write the same XML. */
export interface Spelling {
  readonly mets: string;
  readonly mods: string;
  readonly quote: '"' | "'";
  readonly newline: string;
  readonly mark: boolean;
  readonly id: (role: string, number: number) => string;
  readonly backwards: boolean;
  readonly typePrefix: string;
}

export const plain: Spelling = {
  mets: '',
  mods: 'mods',
  quote: '"',
  newline: '\n',
  mark: false,
  id: (role, number) => `${role}${String(number)}`,
  backwards: false,
  typePrefix: 'np:',
};
export const odd: Spelling = {
  mets: 'M',
  mods: '',
  quote: "'",
  newline: '\r\n',
  mark: true,
  id: (role, number) => `_${String(number * 7)}.${role.toUpperCase()}`,
  backwards: true,
  typePrefix: '',
};

export interface PageFacts {
  readonly order?: string | undefined;
  readonly number?: string | undefined;
  readonly reel?: string | undefined;
  readonly frame?: string | undefined;
  readonly present?: string | undefined;
  readonly note?: string | undefined;
  readonly files?: readonly string[];
  readonly section?: string | undefined;
}

export interface IssueFacts {
  readonly lccn?: string | undefined;
  readonly date?: string | undefined;
  readonly printed?: string | undefined;
  readonly edition?: string | undefined;
  readonly caption?: string | undefined;
  readonly volume?: string | undefined;
  readonly number?: string | undefined;
  readonly present?: string | undefined;
  readonly label?: string | undefined;
  readonly type?: string | undefined;
  readonly pages: readonly PageFacts[];
}

/** Writes elements with a prefix, an order of attributes and a kind of quotes. */
function writer(
  prefix: string,
  spelling: Spelling,
): (name: string, attributes: readonly (readonly [string, string])[], inside?: string) => string {
  return (name, attributes, inside) => {
    const tag = prefix === '' ? name : `${prefix}:${name}`;
    const list = spelling.backwards ? [...attributes].reverse() : attributes;
    const written = list.map(([key, value]) => ` ${key}=${spelling.quote}${value}${spelling.quote}`).join('');
    return inside === undefined ? `<${tag}${written}/>` : `<${tag}${written}>${inside}</${tag}>`;
  };
}

function finish(text: string, spelling: Spelling): string {
  return `${spelling.mark ? '\ufeff' : ''}<?xml version="1.0" encoding="UTF-8"?>\n<!-- <dmdSec ID="fake"/> -->\n${text}\n`.replaceAll(
    '\n',
    spelling.newline,
  );
}

function declarations(spelling: Spelling): readonly (readonly [string, string])[] {
  return [
    [spelling.mets === '' ? 'xmlns' : `xmlns:${spelling.mets}`, 'http://www.loc.gov/METS/'],
    ['xmlns:x', 'http://www.w3.org/1999/xlink'],
    ['xmlns:premis', 'http://www.oclc.org/premis'],
    ['xmlns:mix', 'http://www.loc.gov/mix/'],
  ];
}

/** One issue as METS with a MODS section per page, the way the published issue document of 1905 is built, in words of our own. */
export function issueDocument(issue: IssueFacts, spelling: Spelling = plain): string {
  const mets = writer(spelling.mets, spelling);
  const mods = writer(spelling.mods, spelling);
  const modsSpace: readonly (readonly [string, string])[] = [
    [spelling.mods === '' ? 'xmlns' : `xmlns:${spelling.mods}`, 'http://www.loc.gov/mods/v3'],
  ];
  const section = (id: string, inside: string): string =>
    mets('dmdSec', [['ID', id]], mets('mdWrap', [['MDTYPE', 'MODS']], mets('xmlData', [], mods('mods', modsSpace, `\n  ${inside}\n`))));
  const detail = (type: string, number: string | undefined, caption = ''): string =>
    number === undefined
      ? ''
      : mods('detail', [['type', type]], mods('number', [], number) + (caption === '' ? '' : mods('caption', [], caption)));
  const note = (present: string | undefined, label: string | undefined): string =>
    present === undefined
      ? ''
      : mods(
          'note',
          [['type', 'noteAboutReproduction'], ...(label === undefined ? [] : [['displayLabel', label] as const])],
          `\n    ${present}\n  `,
        );
  const host = mods(
    'relatedItem',
    [['type', 'host']],
    (issue.lccn === undefined ? '' : mods('identifier', [['type', 'lccn']], issue.lccn)) +
      mods('part', [], detail('volume', issue.volume) + detail('issue', issue.number) + detail('edition', issue.edition, issue.caption)),
  );
  const dates =
    (issue.printed === undefined
      ? ''
      : mods(
          'dateIssued',
          [
            ['encoding', 'iso8601'],
            ['qualifier', 'questionable'],
          ],
          issue.printed,
        )) + (issue.date === undefined ? '' : mods('dateIssued', [['encoding', 'iso8601']], issue.date));
  const sections = [section(spelling.id('issue', 1), host + mods('originInfo', [], dates) + note(issue.present ?? 'Present', undefined))];
  const labels = [...new Set(issue.pages.map((page) => page.section).filter((label) => label !== undefined))];
  labels.forEach((label, at) => sections.push(section(spelling.id('section', at + 1), mods('part', [], detail('section label', label)))));
  let technical = '';
  let files = '';
  const divisions = new Map<string, string>();
  issue.pages.forEach((page, at) => {
    const id = spelling.id('page', at + 1);
    const part = mods(
      'part',
      [],
      (page.order === undefined ? '' : mods('extent', [['unit', 'pages']], mods('start', [], page.order))) +
        detail('page number', page.number),
    );
    const original = mods(
      'relatedItem',
      [['type', 'original']],
      (page.reel === undefined ? '' : mods('identifier', [['type', 'reel number']], page.reel)) +
        (page.frame === undefined ? '' : mods('identifier', [['type', 'reel sequence number']], page.frame)),
    );
    sections.push(section(id, part + original + note(page.present ?? 'Present', page.note)));
    const pointers = (page.files ?? []).map((name, number) => {
      const fileId = spelling.id(`file${String(number)}`, at + 1);
      const use = ['master', 'service', 'derivative', 'ocr'][number] ?? 'other';
      technical += mets(
        'techMD',
        [['ID', `t${fileId}`]],
        `<premis:object><premis:messageDigestAlgorithm>SHA-1</premis:messageDigestAlgorithm><premis:messageDigest>AB${String(at)}${String(number)}</premis:messageDigest></premis:object><mix:mix><mix:ImageWidth>${String(6500 + at)}</mix:ImageWidth><mix:ImageLength>8400</mix:ImageLength></mix:mix>`,
      );
      files += mets(
        'fileGrp',
        [],
        mets(
          'file',
          [
            ['ID', fileId],
            ['ADMID', `t${fileId}`],
            ['USE', use],
          ],
          mets('FLocat', [
            ['LOCTYPE', 'OTHER'],
            ['x:href', name],
          ]),
        ),
      );
      return mets('fptr', [['FILEID', fileId]]);
    });
    const key = page.section ?? '';
    divisions.set(
      key,
      (divisions.get(key) ?? '') +
        mets(
          'div',
          [
            ['TYPE', `${spelling.typePrefix}page`],
            ['DMDID', id],
          ],
          pointers.join(''),
        ),
    );
  });
  const inside = [...divisions.entries()]
    .map(([label, pages]) =>
      label === ''
        ? pages
        : mets(
            'div',
            [
              ['TYPE', `${spelling.typePrefix}section`],
              ['DMDID', spelling.id('section', labels.indexOf(label) + 1)],
            ],
            pages,
          ),
    )
    .join('');
  const map = mets(
    'structMap',
    [],
    mets(
      'div',
      [
        ['TYPE', `${spelling.typePrefix}issue`],
        ['DMDID', spelling.id('issue', 1)],
      ],
      inside,
    ),
  );
  const body = `\n${sections.join('\n')}\n${mets('amdSec', [], technical)}\n${mets('fileSec', [], files)}\n${map}\n`;
  const root: readonly (readonly [string, string])[] = [
    ...declarations(spelling),
    ['TYPE', issue.type ?? 'urn:example:newspaper:issue'],
    ...(issue.label === undefined ? [] : [['LABEL', issue.label] as const]),
  ];
  return finish(mets('mets', root, body), spelling);
}

/** A reel document with targets by frame number and facts by element name. */
export function reelDocument(
  reel: string,
  targets: readonly string[],
  facts: Readonly<Record<string, string>>,
  spelling: Spelling = plain,
): string {
  const mets = writer(spelling.mets, spelling);
  const original = (frame: string): string =>
    `<m:relatedItem type="original"><m:identifier type="reel number">${reel}</m:identifier>${frame === '' ? '' : `<m:identifier type="reel sequence number">${frame}</m:identifier>`}</m:relatedItem>`;
  const section = (id: string, frame: string): string =>
    mets(
      'dmdSec',
      [['ID', id]],
      mets('mdWrap', [], mets('xmlData', [], `<m:mods xmlns:m="http://www.loc.gov/mods/v3">${original(frame)}</m:mods>`)),
    );
  const technical = Object.entries(facts).map(([name, text]) => `<p:${name} xmlns:p="urn:example:p">${text}</p:${name}>`);
  const body = [
    section('r', ''),
    ...targets.map((frame, at) => section(`t${String(at)}`, frame)),
    mets('amdSec', [], mets('techMD', [['ID', 'facts']], technical.join(''))),
    mets(
      'structMap',
      [],
      mets(
        'div',
        [
          ['TYPE', 'np:reel'],
          ['DMDID', 'r'],
        ],
        targets
          .map((_, at) =>
            mets('div', [
              ['TYPE', 'np:target'],
              ['DMDID', `t${String(at)}`],
            ]),
          )
          .join(''),
      ),
    ),
  ];
  return finish(mets('mets', [...declarations(spelling), ['TYPE', 'urn:example:newspaper:reel']], body.join('\n')), spelling);
}

/** A batch manifest. */
export function manifest(lines: readonly string[], name = 'batch_example'): string {
  return `<?xml version="1.0"?>\n<batch xmlns="urn:example:batch" name="${name}">\n${lines.join('\n')}\n</batch>\n`;
}

/** A line of a manifest for an issue. */
export function listed(lccn: string, date: string, edition: string, path: string): string {
  return `<issue lccn="${lccn}" issueDate="${date}" editionOrder="${edition}">${path}</issue>`;
}
