/** What XML 1.0 (fifth edition, section 2.2) allows in no document, lone surrogates among it. */

const ILLEGAL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Cs}/gu;

/** Mark-up, white space that parsers change, and what would steer a terminal or hide text: each as a character reference, which means the same. */
const REFERENCED =
  /[&<>"'\t\n\r\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]/gu;

/**
 * The text ready for xmlbuilder2, which leaves an `&` alone that begins a named or a decimal reference: all escaping is done here, in decimal. Characters that
 * XML cannot hold become U+FFFD; all else comes back from a parser unchanged.
 */
export function xmlText(text: string): string {
  return text.replace(ILLEGAL, '\ufffd').replace(REFERENCED, (character) => `&#${String(character.codePointAt(0) ?? 0xfffd)};`);
}
