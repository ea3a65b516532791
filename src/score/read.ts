import type { Diagnostic } from '../diagnostics/index.js';
import { unpackMxl } from './container/mxl.js';
import { isZip } from './container/zip.js';
import { type Findings, findings } from './diagnostic.js';
import { defaultLimits, type ScoreLimits } from './limits.js';
import { readMei } from './mei/index.js';
import type { Score } from './model.js';
import { musicXmlRoots, readMusicXml } from './musicxml/index.js';
import { decodeXml } from './xml/decode.js';
import { parseXml } from './xml/parse.js';

/** A score, or the reasons why there is none; warnings may stand beside a score. */
export interface ReadScore {
  readonly score: Score | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Reads MusicXML (partwise, timewise, or compressed) or MEI, whichever the bytes are. All that is wrong is reported at
 * once, with its line and column.
 *
 * @param file the file's name, for messages
 */
export function readScore(bytes: Uint8Array, file: string, limits: ScoreLimits = {}): ReadScore {
  const { score, found } = readWithFindings(bytes, file, { ...defaultLimits, ...limits });
  return { score, diagnostics: found.flatMap(({ all }) => all) };
}

/** The same, with the findings to add to; the last are those of the score itself. */
export function readWithFindings(
  bytes: Uint8Array,
  file: string,
  limits: Required<ScoreLimits>,
): { readonly score: Score | undefined; readonly found: readonly Findings[] } {
  const outer = findings(file);
  if (bytes.length > limits.maxBytes) {
    outer.error(
      'score-too-large',
      undefined,
      `the file has ${bytes.length} bytes, and the limit is ${limits.maxBytes}`,
      'see that this is a score',
    );
    return { score: undefined, found: [outer] };
  }
  if (!isZip(bytes)) return { score: fromXml(bytes, outer, limits), found: [outer] };
  const inner = unpackMxl(bytes, file, outer, limits);
  if (!inner) return { score: undefined, found: [outer] };
  const found = findings(`${file}/${inner.path}`);
  return { score: fromXml(inner.bytes, found, limits), found: [outer, found] };
}

function fromXml(bytes: Uint8Array, found: Findings, limits: Required<ScoreLimits>): Score | undefined {
  const text = decodeXml(bytes, found);
  const root = text === undefined ? undefined : parseXml(text, found, limits);
  if (!root) return undefined;
  const score = musicXmlRoots.includes(root.name)
    ? readMusicXml(root, found)
    : root.name === 'mei'
      ? readMei(root, found)
      : undefined;
  if (!score) {
    const message = `the file's outermost element is <${root.name.slice(0, 80)}>`;
    found.error('score-kind', root, message, '<score-partwise>, <score-timewise> (MusicXML) or <mei>');
  }
  return found.hasErrors ? undefined : score;
}
