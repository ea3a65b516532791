import render from 'dom-serializer';
import { type Element, isTag, isText, type ParentNode } from 'domhandler';
import { parseDocument } from 'htmlparser2';
import { firstClass } from './classes.js';

/**
 * The markup of an element that holds text, without ids. It is read and written by a parser of XML, since what stands
 * in it may come from a file.
 */
export function textMarkup(element: string): string {
  const document = parseDocument(element, { xmlMode: true });
  for (const one of elementsIn(document)) {
    const { attribs } = one;
    delete attribs.id;
    if (attribs.class !== undefined) attribs.class = firstClass(attribs.class);
    plainAccidentals(one);
  }
  return render(document, { xmlMode: true });
}

/** All elements in a node, each before what is in it. */
function elementsIn(node: ParentNode): readonly Element[] {
  return node.children.filter(isTag).flatMap((child) => [child, ...elementsIn(child)]);
}

/** Accidentals within texts are set in the font of musical signs (SMuFL, figured bass), which a page does not have. */
const accidentals: Readonly<Record<string, string>> = { '\uea64': '♭', '\uea65': '♮', '\uea66': '♯' };

function plainAccidentals(span: Element): void {
  if (span.name !== 'tspan' || span.attribs['font-family'] === undefined) return;
  const beside = span.parent?.children.find((other) => other !== span && isTag(other));
  const size = beside && isTag(beside) ? beside.attribs['font-size'] : undefined;
  if (size !== undefined) span.attribs['font-size'] = size;
  delete span.attribs['font-family'];
  for (const child of span.children)
    if (isText(child)) child.data = child.data.replace(/./gu, (sign) => accidentals[sign] ?? sign);
}
