import type { Spot } from '../diagnostic.js';

/** An element of an XML file, and where it begins. Names are local: a prefix is taken off. */
export interface XmlElement extends Spot {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly XmlElement[];
  /** The text directly in it, trimmed. */
  readonly text: string;
}

/** The first child of a name. */
export function child(element: XmlElement | undefined, name: string): XmlElement | undefined {
  return element?.children.find((one) => one.name === name);
}

export function childrenOf(element: XmlElement | undefined, name: string): readonly XmlElement[] {
  return element?.children.filter((one) => one.name === name) ?? [];
}

/** The first element at the end of a path of children. */
export function at(element: XmlElement | undefined, ...path: readonly string[]): XmlElement | undefined {
  return path.reduce(child, element);
}

/** The text at the end of a path of children; undefined where there is none, or it is empty. */
export function textAt(element: XmlElement | undefined, ...path: readonly string[]): string | undefined {
  return at(element, ...path)?.text || undefined;
}

const decimal = /^[+-]?(?:\d{1,15}(?:\.\d{0,20})?|\.\d{1,20})$/u;

/** A decimal number as XML Schema writes it, without exponent; undefined for anything else. */
export function numberOf(text: string | undefined): number | undefined {
  return text !== undefined && decimal.test(text.trim()) ? Number(text) : undefined;
}

export function numberAt(element: XmlElement | undefined, ...path: readonly string[]): number | undefined {
  return numberOf(textAt(element, ...path));
}

/** An attribute that is a decimal number. */
export function numberIn(element: XmlElement | undefined, attribute: string): number | undefined {
  return numberOf(element?.attributes.get(attribute));
}

/** All elements below one, each before what it holds, in order of the file. */
export function* descendants(element: XmlElement): Generator<XmlElement> {
  for (const one of element.children) {
    yield one;
    yield* descendants(one);
  }
}
