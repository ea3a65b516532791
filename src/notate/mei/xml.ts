/** What XML 1.0 does not allow as a character (its production 2). */
const forbidden = /[^\t\n\r\u{20}-\u{d7ff}\u{e000}-\u{fffd}\u{10000}-\u{10ffff}]/gu;

const entities: ReadonlyMap<string, string> = new Map([
  ['&', '&amp;'],
  ['<', '&lt;'],
  ['>', '&gt;'],
  ['"', '&quot;'],
]);

/** A text for XML, as content or between double quotes; characters that XML does not allow are dropped. */
export function xmlText(text: string): string {
  return text.replace(forbidden, '').replace(/[&<>"]/gu, (character) => entities.get(character) ?? '');
}

/** An element's attributes; those without a value are left out. Values are escaped. */
export function attributes(values: Readonly<Record<string, string | number | undefined>>): string {
  let text = '';
  for (const [name, value] of Object.entries(values))
    if (value !== undefined) text += ` ${name}="${typeof value === 'number' ? value : xmlText(value)}"`;
  return text;
}

/** An element with its content, or an empty one. */
export function element(
  name: string,
  values: Readonly<Record<string, string | number | undefined>>,
  content = '',
): string {
  const start = `<${name}${attributes(values)}`;
  return content === '' ? `${start}/>` : `${start}>${content}</${name}>`;
}
