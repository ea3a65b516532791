import render from 'dom-serializer';
import { type ChildNode, type Element, isTag, isText, type ParentNode } from 'domhandler';
import { parseDocument } from 'htmlparser2';
import type { EngravedSystem, Point, Stave } from '../../../src/sheet/engrave/index.js';

/** The plain definition of reading a drawing: by a tree of it, gone through once for each thing that is asked. */
export function readByTree(svg: string): EngravedSystem {
  const document = parseDocument(svg, { xmlMode: true });
  const music = firstIn(document, ({ attribs }) => attribs.class === 'definition-scale');
  const page = music && childrenOf(music).find(({ attribs }) => attribs.class === 'page-margin');
  if (!music || !page) throw new Error('the engraver drew no music');
  const [, , width = 0, height = 0] = (music.attribs.viewBox ?? '').split(' ').map(Number);
  const [margin] = pairsIn(page.attribs.transform ?? '');
  const at = { x: margin?.x ?? 0, y: margin?.y ?? 0 };
  // Looked through once: it is most of the work here.
  const elements = elementsIn(page);
  const places = placesIn(elements, at);
  const staves = stavesIn(elements, at);
  const signs = signsIn(document);
  tidy(elements);
  unwrap(page);
  return { width, height, markup: render(page, { xmlMode: true }), signs, places, staves };
}

/** All elements in a node, each before what is in it. */
function elementsIn(node: ParentNode, found: Element[] = []): readonly Element[] {
  for (const child of node.children)
    if (isTag(child)) {
      found.push(child);
      elementsIn(child, found);
    }
  return found;
}

/** The first element in a node, in that order, of which something holds. */
function firstIn(node: ParentNode, holds: (element: Element) => boolean): Element | undefined {
  for (const child of node.children) {
    if (!isTag(child)) continue;
    const found = holds(child) ? child : firstIn(child, holds);
    if (found) return found;
  }
  return undefined;
}

function childrenOf(node: ParentNode): readonly Element[] {
  return node.children.filter(isTag);
}

function isOfClass({ attribs }: Element, name: string): boolean {
  const { class: names = '' } = attribs;
  // Most have one class, or are of another; only then need names be told apart.
  return names === name || (names.includes(name) && names.split(' ').includes(name));
}

/** Numbers in pairs: of a path's corners, or of `translate(3, 4)`. */
function pairsIn(text: string): readonly Point[] {
  const numbers = (text.match(/-?\d+(\.\d+)?/gu) ?? []).map(Number);
  return Array.from({ length: numbers.length >> 1 }, (_, index) => ({
    x: numbers[2 * index] ?? 0,
    y: numbers[2 * index + 1] ?? 0,
  }));
}

function placesIn(elements: readonly Element[], { x, y }: Point): ReadonlyMap<string, Point> {
  const places = new Map<string, Point>();
  for (const element of elements) {
    const isPlaced = isOfClass(element, 'note') || isOfClass(element, 'rest');
    if (!isPlaced || element.attribs.id === undefined) continue;
    const drawn = firstIn(element, ({ name }) => name === 'use');
    const [corner] = pairsIn(drawn?.attribs.transform ?? '');
    if (corner) places.set(element.attribs.id, { x: corner.x + x, y: corner.y + y });
  }
  return places;
}

/** Staves are drawn measure by measure; the n-th of each measure is the same staff. */
function stavesIn(elements: readonly Element[], { x, y }: Point): readonly Stave[] {
  const staves: { top: number; bottom: number; bars: { left: number; right: number }[] }[] = [];
  for (const measure of elements.filter((element) => isOfClass(element, 'measure')))
    childrenOf(measure)
      .filter((element) => isOfClass(element, 'staff'))
      .forEach((staff, index) => {
        const lines = childrenOf(staff)
          .filter(({ name }) => name === 'path')
          .map(({ attribs }) => pairsIn(attribs.d ?? ''));
        const [left, right] = lines[0] ?? [];
        if (!left || !right) return;
        const known = staves[index] ?? {
          top: left.y + y,
          bottom: (lines.at(-1)?.[0]?.y ?? left.y) + y,
          bars: [],
        };
        known.bars.push({ left: left.x + x, right: right.x + x });
        staves[index] = known;
      });
  return staves;
}

function signsIn(document: ParentNode): ReadonlyMap<string, string> {
  const defs = firstIn(document, ({ name }) => name === 'defs');
  const signs = new Map<string, string>();
  for (const sign of defs ? childrenOf(defs) : [])
    signs.set(signName(sign.attribs.id ?? ''), render(sign.children, { xmlMode: true }));
  return signs;
}

/** `E0A4-viqmf8r` is the SMuFL code point of a sign on one page: the sign is the same on all. */
function signName(id: string): string {
  return id.split('-')[0] ?? id;
}

/** Takes ids out, which are of no use in a page, and points to the signs of all systems. */
function tidy(elements: readonly Element[]): void {
  for (const { attribs } of elements) {
    delete attribs.id;
    if (attribs.href !== undefined) attribs.href = `#sign-${signName(attribs.href.slice(1))}`;
  }
  plainAccidentals(elements);
}

/** Groups that the page's style speaks of; what says only what something is draws nothing. */
const spokenOf = new Set(['dir', 'harm', 'label', 'labelAbbr', 'notehead']);

/** Takes away groups that draw nothing of their own, so that the page has less to carry, and the numbers of bars. */
function unwrap(parent: ParentNode): void {
  parent.children = parent.children.flatMap((child): ChildNode[] => {
    if (!isTag(child)) return [child];
    if (isOfClass(child, 'mNum')) return [];
    unwrap(child);
    const [name = ''] = (child.attribs.class ?? '').split(' ');
    const isKept = child.name !== 'g' || child.attribs.transform !== undefined || spokenOf.has(name);
    if (!isKept) return child.children;
    if (child.attribs.class !== undefined) child.attribs.class = name;
    return [child];
  });
}

/** Accidentals within texts are set in the font of musical signs (SMuFL, figured bass), which a page does not have. */
const accidentals: Readonly<Record<string, string>> = { '\uea64': '♭', '\uea65': '♮', '\uea66': '♯' };

function plainAccidentals(elements: readonly Element[]): void {
  for (const span of elements) {
    if (span.name !== 'tspan' || span.attribs['font-family'] === undefined) continue;
    const beside = span.parent?.children.find((other) => other !== span && isTag(other));
    const size = beside && isTag(beside) ? beside.attribs['font-size'] : undefined;
    if (size !== undefined) span.attribs['font-size'] = size;
    delete span.attribs['font-family'];
    for (const child of span.children)
      if (isText(child)) child.data = child.data.replace(/./gu, (sign) => accidentals[sign] ?? sign);
  }
}
