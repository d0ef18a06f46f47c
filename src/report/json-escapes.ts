/** JSON.stringify leaves these raw; as escapes they mean the same and neither steer a terminal nor hide text (RFC 8259 section 7 allows any character to be escaped). */
const UNSEEN = /[\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]|\udb40[\udc00-\udc7f]/g;

/** In a script element also everything that could end it or stand for something else (HTML, 13.3), and the noncharacters, which are parse errors. */
const IN_SCRIPT =
  /[<>&\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufdd0-\ufdef\ufeff\ufff9-\uffff]|\udb40[\udc00-\udc7f]/g;

const escaped = (text: string): string =>
  Array.from({ length: text.length }, (_, at) => `\\u${text.charCodeAt(at).toString(16).padStart(4, '0')}`).join('');

/** A JSON text in which every character can be seen. */
export function plainJson(json: string): string {
  return json.replace(UNSEEN, escaped);
}

/** A value as JSON for a script element that a browser does not run: nothing in it can end the element. */
export function scriptJson(value: unknown): string {
  return JSON.stringify(value).replace(IN_SCRIPT, escaped);
}
