import { inBlocks } from './blocks.js';

/** How many members of a list are put into JSON at once. */
const atOnce = 256;

/**
 * The text of a JSON document, as `JSON.stringify` has it with an indent of 2, and a line break at its end; in pieces, so
 * that a long document is never there whole. What is iterable and no array is a list whose members are made as they are
 * come to.
 */
export function jsonPieces(value: unknown): Iterable<string> {
  return inBlocks(document(value));
}

function* document(value: unknown): Generator<string> {
  yield* piecesOf(value, '\n');
  yield '\n';
}

/** @param newline a line break with the indent of the line in which the value stands */
function* piecesOf(value: unknown, newline: string): Generator<string> {
  if (isList(value)) yield* listPieces(value, newline);
  else if (!holdsList(value)) yield indented(JSON.stringify(value, null, 2), newline);
  else if (Array.isArray(value)) {
    let before = '[';
    for (const member of value) {
      yield `${before}${newline}  `;
      yield* piecesOf(member, `${newline}  `);
      before = ',';
    }
    yield `${newline}]`;
  } else {
    let before = '{';
    for (const [key, member] of Object.entries(value)) {
      if (member === undefined) continue;
      yield `${before}${newline}  ${JSON.stringify(key)}: `;
      yield* piecesOf(member, `${newline}  `);
      before = ',';
    }
    yield `${newline}}`;
  }
}

function* listPieces(list: Iterable<unknown>, newline: string): Generator<string> {
  let before = '[';
  let some: unknown[] = [];
  // As an array they have their indent already; its brackets fall away.
  const said = () => `${before}${indented(JSON.stringify(some, null, 2).slice(1, -2), newline)}`;
  for (const member of list) {
    some.push(member);
    if (some.length < atOnce) continue;
    yield said();
    some = [];
    before = ',';
  }
  if (some.length > 0) yield said();
  yield before === '[' && some.length === 0 ? '[]' : `${newline}]`;
}

/** JSON has its line breaks between values only. */
function indented(json: string, newline: string): string {
  return newline === '\n' ? json : json.replaceAll('\n', newline);
}

function holdsList(value: unknown): value is object {
  if (typeof value !== 'object' || value === null) return false;
  return isList(value) || Object.values(value).some(holdsList);
}

function isList(value: unknown): value is Iterable<unknown> {
  return typeof value === 'object' && value !== null && Symbol.iterator in value && !Array.isArray(value);
}
