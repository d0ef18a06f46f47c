/** What the address says: the part of the page that is shown, and what narrows the list of findings. */
export interface Address {
  readonly anchor: string;
  readonly filter: Filter;
}

/** What narrows the list: severities that are left out, whether decided, and words. */
export interface Filter {
  readonly without: readonly string[];
  readonly state: string;
  readonly words: string;
}

export const NO_FILTER: Filter = { without: [], state: 'all', words: '' };

/** Reads `#finding-x?without=minor+note&show=open&find=frame+25`; the filter is null where the address has none. */
export function readAddress(hash: string): { readonly anchor: string; readonly filter: Filter | null } {
  const text = hash.replace(/^#/, '');
  const mark = text.indexOf('?');
  const anchor = mark < 0 ? text : text.slice(0, mark);
  if (mark < 0) return { anchor, filter: null };
  const parts = new URLSearchParams(text.slice(mark + 1));
  const state = parts.get('show') ?? 'all';
  return {
    anchor,
    filter: {
      without: (parts.get('without') ?? '').split(' ').filter((word) => word !== ''),
      state: state === 'open' || state === 'decided' ? state : 'all',
      words: parts.get('find') ?? '',
    },
  };
}

/** The address of what is shown; a filter that leaves nothing out is not written. */
export function writeAddress({ anchor, filter }: Address): string {
  const parts = new URLSearchParams();
  if (filter.without.length > 0) parts.set('without', filter.without.join(' '));
  if (filter.state !== 'all') parts.set('show', filter.state);
  if (filter.words.trim() !== '') parts.set('find', filter.words.trim());
  const text = parts.toString();
  return `#${anchor}${text === '' ? '' : `?${text}`}`;
}
