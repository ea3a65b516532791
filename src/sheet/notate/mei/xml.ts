/** What XML 1.0 does not allow as a character (its production 2). */
const forbidden = /[^\t\n\r\u{20}-\u{d7ff}\u{e000}-\u{fffd}\u{10000}-\u{10ffff}]/gu;

/** Texts of nothing but these, as most attributes are, need no change. */
const harmless = /^[\w#. -]*$/;

const entities: ReadonlyMap<string, string> = new Map([
  ['&', '&amp;'],
  ['<', '&lt;'],
  ['>', '&gt;'],
  ['"', '&quot;'],
]);

/** Attributes by name; those without a value are left out. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** A text for XML, as content or between double quotes; characters that XML does not allow are dropped. */
export function xmlText(text: string): string {
  if (harmless.test(text)) return text;
  return text.replace(forbidden, '').replace(/[&<>"]/g, (character) => entities.get(character) ?? '');
}

/**
 * An element with its content, or an empty one.
 *
 * @param content XML already: see `xmlText`
 */
export function element(name: string, attributes: Attributes, content = ''): string {
  let start = `<${name}`;
  for (const key in attributes) {
    const value = attributes[key];
    if (value !== undefined) start += ` ${key}="${typeof value === 'number' ? value : xmlText(value)}"`;
  }
  return content === '' ? `${start}/>` : `${start}>${content}</${name}>`;
}
