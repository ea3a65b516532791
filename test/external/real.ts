import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';

/** A real file: music in MIDI that Debian packages. */
export interface RealFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** The MIDI files of a Debian package (GPL-2: installed for the tests, never part of this project), in order of name. */
export function realFiles(): readonly RealFile[] {
  return execFileSync('dpkg', ['-L', 'openttd-openmsx'], { encoding: 'utf8' })
    .split('\n')
    .filter((path) => path.endsWith('.mid'))
    .sort()
    .map((path) => ({ name: basename(path), bytes: new Uint8Array(readFileSync(path)) }));
}

/** What midicsv, a reader of its own, says of a file. Its output is bytes, since texts may be in any encoding. */
export function midicsv(bytes: Uint8Array): string {
  return execFileSync('midicsv', [], { input: bytes, encoding: 'latin1', maxBuffer: 1 << 30 });
}
