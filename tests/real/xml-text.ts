/** Where an element stands in a text: from its start tag to the end of its end tag; `open` is the end of the start tag. */
export interface Span {
  readonly from: number;
  readonly open: number;
  readonly to: number;
}

/**
 * The elements of a local name in the order in which they begin, whatever their prefix. Made for documents that are known to be well formed and hold no such
 * name in a comment: what is edited here keeps every byte that is not meant to change, which no XML writer would do.
 */
export function elements(text: string, name: string): Span[] {
  const tags = new RegExp(`<(/?)(?:[\\w.-]+:)?${name}(?=[\\s/>])[^>]*?(/?)>`, 'g');
  const found: { from: number; open: number; to: number }[] = [];
  const waiting: { from: number; open: number; to: number }[] = [];
  for (const tag of text.matchAll(tags)) {
    const end = tag.index + tag[0].length;
    if (tag[1] === '/') {
      const begun = waiting.pop();
      if (begun !== undefined) begun.to = end;
      continue;
    }
    const span = { from: tag.index, open: end, to: end };
    found.push(span);
    if (tag[2] !== '/') waiting.push(span);
  }
  return found;
}

/** The value of an attribute by local name, null where the element has none. */
export function attribute(text: string, span: Span, name: string): string | null {
  return new RegExp(`[\\s:]${name}="([^"]*)"`).exec(text.slice(span.from, span.open))?.[1] ?? null;
}

/** The elements of a local name whose attributes have these values. */
export function elementsWith(text: string, name: string, attributes: Readonly<Record<string, string>>): Span[] {
  return elements(text, name).filter((span) => Object.entries(attributes).every(([key, value]) => attribute(text, span, key) === value));
}

/** The one element with these attributes; throws where there is none, because an edit that changes nothing would prove nothing. */
export function element(text: string, name: string, attributes: Readonly<Record<string, string>>): Span {
  const [first] = elementsWith(text, name, attributes);
  if (first === undefined) throw new RangeError(`There is no <${name}> with ${JSON.stringify(attributes)} to edit.`);
  return first;
}

/** The text with the part of a span put through an edit. */
export function edited(text: string, span: Span, edit: (part: string) => string): string {
  return text.slice(0, span.from) + edit(text.slice(span.from, span.to)) + text.slice(span.to);
}

/** The text without an element and the white space before it. */
export function without(text: string, span: Span): string {
  return text.slice(0, span.from).trimEnd() + text.slice(span.to);
}

/** The text with another value of an attribute. */
export function withAttribute(text: string, span: Span, name: string, value: string): string {
  const tag = text.slice(span.from, span.open);
  return text.slice(0, span.from) + tag.replace(new RegExp(`([\\s:]${name}=")[^"]*(")`), `$1${value}$2`) + text.slice(span.open);
}

/** The text with other content of an element that holds text alone. */
export function withContent(text: string, span: Span, content: string): string {
  return edited(text, span, (part) => part.replace(/>[^<]*<\//, `>${content}</`));
}

/** The text with two elements in each other's place. */
export function exchanged(text: string, one: Span, other: Span): string {
  const [first, second] = one.from < other.from ? [one, other] : [other, one];
  return (
    text.slice(0, first.from) +
    text.slice(second.from, second.to) +
    text.slice(first.to, second.from) +
    text.slice(first.from, first.to) +
    text.slice(second.to)
  );
}

/** A new element with the prefix of one that stands in the text. */
export function prefixed(text: string, like: Span, name: string, attributes: string, content: string): string {
  const prefix = /^<([\w.-]+:)?/.exec(text.slice(like.from))?.[1] ?? '';
  return `<${prefix}${name} ${attributes}>${content}</${prefix}${name}>`;
}
