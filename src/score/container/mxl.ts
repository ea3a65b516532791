import { type Findings, findings } from '../diagnostic.js';
import type { ScoreLimits } from '../limits.js';
import { decodeXml } from '../xml/decode.js';
import { at, childrenOf } from '../xml/element.js';
import { parseXml } from '../xml/parse.js';
import { staysInside, unpack, type ZipEntry, zipEntries } from './zip.js';

const containerPath = 'META-INF/container.xml';

/**
 * The score in a compressed MusicXML file: the first root file that its container names (MusicXML 4.0, "Compressed
 * .mxl files": the first is the MusicXML root, whatever others follow). undefined where there is none, which is reported.
 */
export function unpackMxl(
  bytes: Uint8Array,
  file: string,
  found: Findings,
  limits: Required<ScoreLimits>,
): { readonly bytes: Uint8Array; readonly path: string } | undefined {
  const entries = zipEntries(bytes, found);
  if (!entries) return undefined;
  const outside = entries.filter(({ path }) => !staysInside(path));
  for (const { path } of outside)
    found.error(
      'zip-path',
      undefined,
      `the archive has a path that leads out of it: ${path.slice(0, 80)}`,
      'pack the score again, with plain names',
    );
  if (outside.length > 0) return undefined;
  const path = rootPath(bytes, file, entries, found, limits);
  if (path === undefined) return undefined;
  const entry = entries.find((one) => one.path === path);
  if (!entry) {
    found.error(
      'zip-content',
      undefined,
      `the container names ${path.slice(0, 80)}, which is not in the archive`,
      `it has: ${named(entries)}`,
    );
    return undefined;
  }
  const plain = unpack(bytes, entry, limits.maxBytes, found);
  return plain && { bytes: plain, path };
}

function rootPath(
  bytes: Uint8Array,
  file: string,
  entries: readonly ZipEntry[],
  found: Findings,
  limits: Required<ScoreLimits>,
): string | undefined {
  const container = entries.find(({ path }) => path === containerPath);
  const missing = (what: string) => {
    found.error(
      'zip-content',
      undefined,
      what,
      `${containerPath} names the score in <rootfile full-path="…"/>`,
    );
    return undefined;
  };
  if (!container) return missing(`the archive has no ${containerPath}`);
  const plain = unpack(bytes, container, limits.maxBytes, found);
  if (!plain) return undefined;
  const inner = findings(`${file}/${containerPath}`);
  const text = decodeXml(plain, inner);
  const root = text === undefined ? undefined : parseXml(text, inner, limits);
  for (const { code, message, hint } of inner.all)
    found.error(code, undefined, `${containerPath}: ${message}`, hint);
  if (!root) return undefined;
  const path = childrenOf(at(root, 'rootfiles'), 'rootfile')[0]?.attributes.get('full-path');
  if (path === undefined) return missing(`${containerPath} names no root file`);
  if (staysInside(path)) return path;
  found.error(
    'zip-path',
    undefined,
    `the container names a path that leads out of the archive: ${path.slice(0, 80)}`,
    'name a file of the archive',
  );
  return undefined;
}

function named(entries: readonly ZipEntry[]): string {
  return entries
    .map(({ path }) => path)
    .filter((path) => !path.startsWith('META-INF/'))
    .slice(0, 5)
    .join(', ');
}
