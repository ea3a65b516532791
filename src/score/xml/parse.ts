import { SaxesParser, type SaxesTagPlain } from 'saxes';
import type { Findings, Spot } from '../diagnostic.js';
import type { ScoreLimits } from '../limits.js';
import type { XmlElement } from './element.js';

interface Open extends Spot {
  readonly name: string;
  attributes: ReadonlyMap<string, string>;
  readonly children: XmlElement[];
  text: string;
}

/** Ends the parsing of a file that is refused; it never leaves this file. */
class Refused extends Error {}

/** After so many mistakes of syntax the rest of a file says nothing. */
const mostMistakes = 20;

/**
 * The tree of an XML 1.0 text; undefined where it is not well-formed or is refused. A document type may name its
 * public definition, which is not looked up; declarations of its own are refused, since entities can unfold without
 * end and can ask for files.
 */
export function parseXml(
  text: string,
  found: Findings,
  limits: Required<ScoreLimits>,
): XmlElement | undefined {
  const parser = new SaxesParser({ xmlns: false });
  const stack: Open[] = [];
  let root: XmlElement | undefined;
  let elements = 0;
  let mistakes = 0;
  let start: Spot = { line: 1, column: 1 };
  const here = (): Spot => ({ line: parser.line, column: Math.max(1, parser.column) });
  const refuse = (...what: Parameters<Findings['error']>): never => {
    found.error(...what);
    throw new Refused();
  };
  parser.on('error', ({ message }) => {
    mistakes += 1;
    const plain = message.replace(/^\d+:\d+: /u, '').replace(/\.$/u, '');
    const hint = plain.includes('entity')
      ? 'write the character itself, or as &#…;'
      : 'export the score again';
    found.error('xml-syntax', here(), plain, hint);
    if (mistakes >= mostMistakes) throw new Refused();
  });
  parser.on('doctype', (doctype) => {
    if (!doctype.includes('[')) return;
    const what = doctype.includes('<!ENTITY') ? 'entities' : 'a grammar';
    refuse(
      'xml-entity',
      here(),
      `the document type declares ${what} of its own`,
      'take out what stands in [ ] in <!DOCTYPE>',
    );
  });
  parser.on('opentagstart', ({ name }) => {
    start = { line: parser.line, column: Math.max(1, parser.column - [...name].length - 1) };
  });
  parser.on('opentag', ({ name, attributes }: SaxesTagPlain) => {
    elements += 1;
    if (elements > limits.maxElements)
      refuse(
        'score-too-large',
        start,
        `there are more than ${limits.maxElements} elements`,
        'see that this is a score',
      );
    if (stack.length >= limits.maxDepth)
      refuse(
        'score-too-large',
        start,
        `elements stand more than ${limits.maxDepth} deep in each other`,
        'see that this is a score',
      );
    const pairs = Object.entries(attributes).map(([key, value]) => [local(key), value] as const);
    stack.push({ name: local(name), ...start, attributes: new Map(pairs), children: [], text: '' });
  });
  const addText = (piece: string) => {
    const top = stack.at(-1);
    if (top) top.text += piece;
  };
  parser.on('text', addText);
  parser.on('cdata', addText);
  parser.on('closetag', () => {
    const done = stack.pop();
    if (!done) return;
    const element: XmlElement = { ...done, text: done.text.trim() };
    const parent = stack.at(-1);
    if (parent) parent.children.push(element);
    else root ??= element;
  });
  try {
    parser.write(text).close();
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    return undefined;
  }
  return mistakes > 0 ? undefined : root;
}

function local(name: string): string {
  const prefix = name.indexOf(':');
  // xml:id and xlink:href keep theirs, by which they are known
  return prefix < 0 || name.startsWith('xml:') || name.startsWith('xlink:') ? name : name.slice(prefix + 1);
}
