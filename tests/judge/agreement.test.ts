import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICIES, POLICIES } from '../../src/catalogue/agreement.js';
import { agreementMistakes, resolveAgreement } from '../../src/judge/agreement.js';
import { agreementHelp } from '../../src/judge/agreement-help.js';
import type { Agreement, Policies } from '../../src/model/agreement.js';
import { parseJson } from '../../src/read/json.js';

const format = 'reeltally/agreement/2';

describe('what holds where the agreement is silent', () => {
  it('is written out in full without an agreement', () => {
    expect(resolveAgreement(null, {})).toEqual({
      format,
      library: '',
      vendor: '',
      policies: DEFAULT_POLICIES,
      tolerances: { majorShare: 0.01, minorShare: 0.001 },
      severities: {},
      required: ['pairing', 'deliver', 'title', 'date', 'edition', 'page', 'order'],
      terms: { reviewDays: 21, reviewDayKind: 'calendar', holidays: [], currency: '', payOn: 'accepted', rounding: 'half-up', classes: [] },
      sampling: { plan: 'limiting-quality', level: 'II', aql: '1.0', limitingQuality: '2', risk: '0.05', unit: 'page' },
    });
  });

  it('is the same for an agreement that says nothing', () => {
    expect(resolveAgreement({ format }, {})).toEqual(resolveAgreement(null, {}));
  });

  it('has a value for every policy, the first one listed', () => {
    expect(POLICIES.map((policy) => policy.name)).toEqual(Object.keys(DEFAULT_POLICIES));
    for (const { name, values } of POLICIES) expect(values[0]?.value).toBe(DEFAULT_POLICIES[name]);
  });
});

describe('the agreement goes before the profile, the profile before the default', () => {
  // Every combination of one policy: set nowhere, by the profile, by the agreement, by both.
  const cases = POLICIES.flatMap(({ name, values }) => {
    const all = values.map((value) => value.value);
    return [undefined, ...all].flatMap((profile) => [undefined, ...all].map((agreed) => [name, profile, agreed] as const));
  });

  it.each(cases)('%s: profile %s, agreement %s', (name, profile, agreed) => {
    const defaults = (profile === undefined ? {} : { [name]: profile }) as Partial<Policies>;
    const policies = (agreed === undefined ? {} : { [name]: agreed }) as Partial<Policies>;
    const resolved = resolveAgreement({ format, policies }, defaults);
    expect(resolved.policies).toEqual({ ...DEFAULT_POLICIES, [name]: agreed ?? profile ?? DEFAULT_POLICIES[name] });
  });

  it('field by field for tolerances, terms and sampling', () => {
    const resolved = resolveAgreement({ format, tolerances: { minorShare: 0 }, terms: { reviewDays: 0 }, sampling: { unit: 'issue' } }, {});
    expect(resolved.tolerances).toEqual({ majorShare: 0.01, minorShare: 0 });
    expect(resolved.terms).toMatchObject({ reviewDays: 0, reviewDayKind: 'calendar' });
    expect(resolved.sampling).toMatchObject({ unit: 'issue', plan: 'limiting-quality' });
  });

  it('a price class is paid for scanning, by the frame, unless it says otherwise', () => {
    const own = { class: 'text', kind: ['page' as const], deliver: true, charge: 'text', per: 'reel' as const };
    const { terms } = resolveAgreement({ format, terms: { classes: [{ class: 'pages', kind: ['page'], deliver: true }, own] } }, {});
    expect(terms.classes).toEqual([{ class: 'pages', kind: ['page'], deliver: true, charge: 'scan', per: 'frame' }, own]);
  });

  it('takes lists whole, an empty one too', () => {
    expect(resolveAgreement({ format, required: [] }, {}).required).toEqual([]);
    expect(resolveAgreement({ format, required: ['date'] }, {}).required).toEqual(['date']);
  });

  it('leaves the agreement as it was', () => {
    const agreement: Agreement = Object.freeze({ format, policies: Object.freeze({ pageNumber: 'either' as const }) });
    resolveAgreement(agreement, Object.freeze({ pageNumber: 'printed' }));
    expect(agreement).toEqual({ format, policies: { pageNumber: 'either' } });
  });
});

describe('what the schema cannot judge', () => {
  it('an unknown finding code, a class named twice', () => {
    const one = { class: 'pages', kind: ['page' as const], deliver: true };
    const mistakes = agreementMistakes({
      format,
      severities: { 'date-difers': 'minor', 'date-differs': 'major' },
      terms: { classes: [one, { ...one, deliver: false }, { ...one, kind: ['blank'], class: 'blanks' }] },
    });
    expect(mistakes).toHaveLength(2);
    expect(mistakes[0]).toContain('no finding code "date-difers"');
    expect(mistakes[1]).toContain('the class "pages" is there more than once');
  });

  it('two classes of one charge that can hold the same frame, reel or batch', () => {
    const page = { class: 'page', kind: ['page' as const, 'blank' as const], deliver: true };
    const mistakes = (other: object): readonly string[] =>
      agreementMistakes({ format, terms: { classes: [page, { ...page, class: 'other', ...other }] } });
    expect(mistakes({ kind: ['page'] })).toEqual([
      'terms, classes: "page" and "other" both pay delivered frames (page) for the charge "scan", so that each would be paid twice. Part them by kind or deliver, or give one another charge.',
    ]);
    for (const apart of [{ kind: ['target'] }, { deliver: false }, { charge: 'text' }, { per: 'reel' }])
      expect(mistakes(apart)).toEqual([]);
  });

  it('is empty for an agreement that is in order', () => {
    expect(agreementMistakes({ format, severities: { 'date-differs': 'minor' } })).toEqual([]);
    expect(agreementMistakes({ format })).toEqual([]);
  });
});

describe('the help', () => {
  const text = agreementHelp([{ name: 'issue-mets', policies: { pageNumber: 'printed', unnumberedPage: 'omit' } }]);

  it('names every field of the schema that a reader can set', () => {
    const resolved = resolveAgreement(null, {});
    const fields = (Object.entries(resolved) as [string, unknown][]).filter(([name]) => name !== 'format');
    const names = fields.flatMap(([name, value]) => [
      name,
      ...(Array.isArray(value) ? [] : typeof value === 'object' && value !== null ? Object.keys(value) : []),
    ]);
    for (const name of [...names, 'class', 'kind', 'deliver', 'includes', 'unitPrice']) expect(text).toMatch(new RegExp(`\\b${name}\\b`));
  });

  it('marks one value of each policy as the default and says what a profile sets', () => {
    expect(text.split(' (default): ')).toHaveLength(POLICIES.length + 1);
    expect(text).toContain('    intended (default): the label the library wants\n');
    expect(text).toContain('Profile issue-mets: pageNumber printed, unnumberedPage omit.');
  });

  it('keeps to lines that fit, and its example can be read', () => {
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
    const example = text.slice(text.indexOf('{'), text.indexOf('\n  }\n') + 4);
    expect(parseJson(example, 'example', 'agreement').tolerances).toEqual({ majorShare: 0.005 });
  });
});
