import render from 'dom-serializer';
import { type Element, isTag, type ParentNode } from 'domhandler';
import { parseDocument } from 'htmlparser2';

/** What a drawing says before its music. */
export interface Head {
  readonly width: number;
  readonly height: number;
  /** The markup of each sign, by name. */
  readonly signs: ReadonlyMap<string, string>;
}

/**
 * Reads what a drawing says before its music.
 *
 * @throws where it does not say how large the music is
 */
export function readHead(svg: string): Head {
  const document = parseDocument(svg, { xmlMode: true });
  const music = firstIn(document, ({ attribs }) => attribs.class === 'definition-scale');
  if (!music) throw new Error('the engraver drew no music');
  const [, , width = 0, height = 0] = (music.attribs.viewBox ?? '').split(' ').map(Number);
  const defs = firstIn(document, ({ name }) => name === 'defs');
  const signs = new Map(
    (defs?.children ?? [])
      .filter(isTag)
      .map((sign) => [signName(sign.attribs.id ?? ''), render(sign.children, { xmlMode: true })] as const),
  );
  return { width, height, signs };
}

/** The first element in a node, each before what is in it, of which something holds. */
function firstIn(node: ParentNode, holds: (element: Element) => boolean): Element | undefined {
  for (const child of node.children) {
    if (!isTag(child)) continue;
    const found = holds(child) ? child : firstIn(child, holds);
    if (found) return found;
  }
  return undefined;
}

/** `E0A4-viqmf8r` is the SMuFL code point of a sign on one page: the sign is the same on all. */
export function signName(id: string): string {
  const end = id.indexOf('-');
  return end < 0 ? id : id.slice(0, end);
}
