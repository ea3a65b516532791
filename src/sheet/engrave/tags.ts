/** A tag as it stands in a drawing, or a whole element that holds text. */
export interface Tag {
  readonly kind: 'opens' | 'closes' | 'alone' | 'text';
  readonly name: string;
  /** As they are written, each with a blank before it: ` d="M1 2" stroke-width="9"`. */
  readonly attributes: string;
  /** The whole element, where it holds text; else ''. */
  readonly markup: string;
}

/**
 * A tag whose attributes hold nothing that would have to be written as an entity: names, numbers, paths. Tags follow each
 * other without blanks.
 */
const pattern = /<(\/?)([\w:]+)((?: [\w:-]+="[^"'&<>\u0080-\uffff]*")*) ?(\/?)>/y;

/** Elements that may hold text. */
const withText = new Set(['text', 'title', 'desc']);

/**
 * Tells the tags of a drawing one by one, from some place on, up to the one that closes the first of them. One pass over
 * the text, without a tree: of 20,000 notes there are some 300,000, and a tree of them took three times as long.
 *
 * @throws at anything else: nothing is passed on that was not looked at
 */
export function eachTag(svg: string, from: number, tell: (tag: Tag) => void): void {
  let depth = 0;
  pattern.lastIndex = from;
  do {
    const at = pattern.lastIndex;
    const [, closing, name = '', attributes = '', alone] = pattern.exec(svg) ?? [];
    if (name === '') throw unknownAt(svg, at);
    if (alone) tell({ kind: 'alone', name, attributes, markup: '' });
    else if (closing) {
      depth -= 1;
      tell({ kind: 'closes', name, attributes, markup: '' });
    } else if (withText.has(name)) {
      const closes = svg.indexOf(`</${name}>`, at);
      if (closes < 0) throw unknownAt(svg, at);
      const end = closes + name.length + 3;
      tell({ kind: 'text', name, attributes, markup: svg.slice(at, end) });
      pattern.lastIndex = end;
    } else {
      depth += 1;
      tell({ kind: 'opens', name, attributes, markup: '' });
    }
  } while (depth > 0);
}

function unknownAt(svg: string, at: number): Error {
  return new Error(`the engraver drew what is not known: ${svg.slice(at, at + 60)}`);
}

/** An attribute's value, of a tag that `eachTag` told. */
export function attributeOf(attributes: string, name: string): string | undefined {
  const sign = ` ${name}="`;
  const at = attributes.indexOf(sign);
  if (at < 0) return undefined;
  const from = at + sign.length;
  return attributes.slice(from, attributes.indexOf('"', from));
}
