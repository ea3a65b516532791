import { existsSync, statSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { once } from './measure.js';
import { tracksOf } from './music.js';
import type { Row } from './table.js';

export const hearHead: Row = ['what', 'bank', 'sound', 'CPU time, memory', '× real time'];

/** Banks of Debian: timgm6mb-soundfont (6 MB) and fluid-soundfont-gm (148 MB). */
const banks = ['TimGM6mb.sf2', 'FluidR3_GM.sf2'].map((name) => join('/usr/share/sounds/sf2', name));

/** Four maps in turn: program changes of three families, and key switches. */
const maps = ['saltmarsh-horns', 'general-midi-strings', 'general-midi-brass', 'general-midi-woodwinds'];

/** Header of a WAV file of whole numbers, and a frame of 24 bits in stereo. Unit: bytes. */
const [head, frame, rate] = [44, 6, 48_000];

/** Music rendered by `keyslip hear`, whole processes, on one core. */
export function hearRows(folder: string): readonly Row[] {
  const sixteen = join(folder, 'hear-16.mid');
  writeFileSync(sixteen, tracksOf(16, 300));
  const mapped = Array.from({ length: 16 }, (_, at) => ['--map', `${at + 1}=maps/${maps[at % 4]}.yaml`]);
  const music: Readonly<Record<string, readonly string[]>> = {
    'the demo cue, 5 parts, 133 notes': ['maps/demo/skerry-point.cue.yaml'],
    '16 parts, 4,800 notes': [sixteen, ...mapped.flat()],
  };
  return Object.entries(music).flatMap(([name, words]) =>
    banks.map((bank): Row => {
      if (!existsSync(bank)) return [name, basename(bank), 'not installed', '', ''];
      const out = join(folder, 'hear.wav');
      const { ms, mb } = once(['dist/keyslip.js', 'hear', ...words, '--bank', bank, '-o', out, '--quiet']);
      const seconds = (statSync(out).size - head) / frame / rate;
      const cells = [`${seconds.toFixed(0)} s`, `${(ms / 1000).toFixed(2)} s, ${mb.toFixed(0)} MB`];
      return [name, basename(bank), ...cells, ((1000 * seconds) / ms).toFixed(1)];
    }),
  );
}
