import { crc32, inflateRawSync } from 'node:zlib';
import type { Findings } from '../diagnostic.js';

/** A file in an archive, still packed. */
export interface ZipEntry {
  readonly path: string;
  /** 0 stored, 8 deflated; others are not unpacked. */
  readonly method: number;
  readonly isEncrypted: boolean;
  readonly crc: number;
  readonly packedSize: number;
  /** As the archive says; what comes out is held to it. */
  readonly size: number;
  readonly headerOffset: number;
}

/** The record at an archive's end is 22 bytes, and a comment of up to 65,535 bytes may follow (APPNOTE 6.3, 4.3.16). */
const endLength = 22;
const longestComment = 0xffff;
const mostEntries = 1000;

export function isZip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4;
}

/** The central directory of an archive (APPNOTE 6.3, 4.3.12); undefined where there is none, which is reported. */
export function zipEntries(bytes: Uint8Array, found: Findings): readonly ZipEntry[] | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = endRecord(view);
  const damaged = (what: string) => {
    found.error('zip-damaged', undefined, what, 'export the score again');
    return undefined;
  };
  if (end === undefined) return damaged('the archive has no directory; it may be cut off');
  const count = view.getUint16(end + 10, true);
  if (count > mostEntries) return damaged(`the archive has ${count} files, and a score has a few`);
  const entries: ZipEntry[] = [];
  let at = view.getUint32(end + 16, true);
  for (let index = 0; index < count; index++) {
    if (at + 46 > end || view.getUint32(at, true) !== 0x02014b50)
      return damaged("the archive's directory is damaged");
    const [nameLength, extra, comment] = [28, 30, 32].map((offset) => view.getUint16(at + offset, true));
    const name = bytes.subarray(at + 46, at + 46 + (nameLength ?? 0));
    entries.push({
      path: new TextDecoder().decode(name),
      isEncrypted: (view.getUint16(at + 8, true) & 1) === 1,
      method: view.getUint16(at + 10, true),
      crc: view.getUint32(at + 16, true),
      packedSize: view.getUint32(at + 20, true),
      size: view.getUint32(at + 24, true),
      headerOffset: view.getUint32(at + 42, true),
    });
    at += 46 + (nameLength ?? 0) + (extra ?? 0) + (comment ?? 0);
  }
  return entries;
}

function endRecord(view: DataView): number | undefined {
  const last = view.byteLength - endLength;
  for (let at = last; at >= Math.max(0, last - longestComment); at--)
    if (view.getUint32(at, true) === 0x06054b50) return at;
  return undefined;
}

/** Whether a path stays in its archive: relative, with `/` only, and without `..`. */
export function staysInside(path: string): boolean {
  if (path === '' || path.startsWith('/') || /^[A-Za-z]:/u.test(path)) return false;
  if (/[\\\p{Cc}]/u.test(path)) return false;
  return !path.split('/').includes('..');
}

/**
 * What is packed in an entry; undefined where it cannot be had, which is reported. No more is unpacked than the entry
 * says and the limit allows, so that a small archive cannot fill the memory.
 */
export function unpack(
  bytes: Uint8Array,
  entry: ZipEntry,
  maxBytes: number,
  found: Findings,
): Uint8Array | undefined {
  const fail = (what: string) => {
    found.error('zip-damaged', undefined, `${entry.path}: ${what}`, 'export the score again');
    return undefined;
  };
  if (entry.size > maxBytes) {
    found.error(
      'score-too-large',
      undefined,
      `${entry.path} has ${entry.size} bytes unpacked, and the limit is ${maxBytes}`,
      'see that this is a score',
    );
    return undefined;
  }
  if (entry.isEncrypted) return fail('it is locked with a password');
  if (entry.method !== 0 && entry.method !== 8)
    return fail(`it is packed in a way (${entry.method}) that scores do not use`);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const head = entry.headerOffset;
  if (head + 30 > bytes.length || view.getUint32(head, true) !== 0x04034b50)
    return fail('it is not where the directory says');
  const from = head + 30 + view.getUint16(head + 26, true) + view.getUint16(head + 28, true);
  if (from + entry.packedSize > bytes.length) return fail('it is cut off');
  const packed = bytes.subarray(from, from + entry.packedSize);
  const plain = entry.method === 0 ? packed : inflated(packed, entry.size);
  if (plain === undefined) return fail('it cannot be unpacked, or holds more than it says');
  if (plain.length !== entry.size || crc32(plain) !== entry.crc) return fail('its check sum is wrong');
  return plain;
}

function inflated(packed: Uint8Array, size: number): Uint8Array | undefined {
  try {
    return inflateRawSync(packed, { maxOutputLength: Math.max(1, size) });
  } catch {
    return undefined;
  }
}
