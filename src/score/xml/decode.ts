import type { Findings } from '../diagnostic.js';

/** The encoding that a declaration names, in bytes that are ASCII up to there. */
const declared = /^<\?xml[^>]*?encoding\s*=\s*["']([A-Za-z][\w.-]*)["']/u;

/** Encodings that are read, by the name in the declaration. */
const readable: ReadonlyMap<string, string> = new Map([
  ['utf-8', 'utf-8'],
  ['us-ascii', 'utf-8'],
  ['ascii', 'utf-8'],
  ['utf-16', 'utf-16le'],
  ['iso-8859-1', 'windows-1252'],
  ['latin1', 'windows-1252'],
  ['windows-1252', 'windows-1252'],
]);

/**
 * The text of an XML file: UTF-8 or UTF-16 by its byte order mark (XML 1.0, appendix F), else by its declaration.
 * undefined where there is none, which is reported.
 */
export function decodeXml(bytes: Uint8Array, found: Findings): string | undefined {
  const encoding = encodingOf(bytes);
  const name = readable.get(encoding.toLowerCase()) ?? (encoding.startsWith('utf-16') ? encoding : undefined);
  if (name === undefined) {
    found.error(
      'score-encoding',
      { line: 1, column: 1 },
      `the encoding ${encoding} is not read`,
      'save the file as UTF-8',
    );
    return undefined;
  }
  try {
    return new TextDecoder(name, { fatal: true }).decode(bytes);
  } catch {
    found.error(
      'score-encoding',
      undefined,
      `there are bytes that are not ${encoding.toUpperCase()} text`,
      'export the file again, as UTF-8',
    );
    return undefined;
  }
}

function encodingOf(bytes: Uint8Array): string {
  const [first, second] = bytes;
  if (first === 0xfe && second === 0xff) return 'utf-16be';
  if (first === 0xff && second === 0xfe) return 'utf-16le';
  // "<" in two bytes, without a mark
  if (first === 0x3c && second === 0) return 'utf-16le';
  if (first === 0 && second === 0x3c) return 'utf-16be';
  const head = String.fromCharCode(...bytes.subarray(0, 200)).replace(/^\u00ef\u00bb\u00bf/u, '');
  return declared.exec(head)?.[1] ?? 'utf-8';
}
