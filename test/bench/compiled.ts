import { readFileSync } from 'node:fs';
import { parseMidi, writeMidi } from 'midi-file';
import { compile } from '../../src/compile/index.js';
import { compileCue } from '../../src/cue/index.js';
import { readCue } from '../../src/cue/read/index.js';
import type { Cue } from '../../src/cue/types.js';
import { readMap } from '../../src/map/read/index.js';
import type { ArticulationMap } from '../../src/map/types.js';
import { readMidi } from '../../src/midi/read/index.js';
import { writeMidi as writeOwn } from '../../src/midi/write/index.js';
import type { TimingOptions } from '../../src/timing/index.js';
import { medians } from './measure.js';
import { recording, shapes, tracksOf } from './music.js';
import type { Row } from './table.js';

export const horns = 'maps/saltmarsh-horns.yaml';
/** A map for each way of switching. */
const ways = [
  ['keys', 'maps/lantern-street-strings.yaml'],
  ['keys, two aspects', 'maps/breakwater-trombones.yaml'],
  ['controllers', 'maps/tidewater-oboe.yaml'],
  ['programs', 'maps/general-midi-strings.yaml'],
  ['channels', 'maps/gull-chapel-choir.yaml'],
] as const;

function loadMap(file: string): ArticulationMap {
  const { value } = readMap(new Uint8Array(readFileSync(file)), file);
  if (!value) throw new Error(`${file} has errors`);
  return value;
}

function songOf(bytes: Uint8Array) {
  const { value } = readMidi(bytes, 'bench.mid');
  if (!value) throw new Error('the bench recording is not read');
  return value;
}

function compiled(bytes: Uint8Array, map: ArticulationMap, timing?: TimingOptions): Uint8Array {
  const song = songOf(bytes);
  const jobs = song.tracks.map(({ number }) => ({
    part: { track: number, trackName: '', channel: 0 },
    map,
    ...(timing ? { timing } : {}),
  }));
  const { value } = compile(song, jobs);
  if (!value) throw new Error('the bench recording does not compile');
  return value.bytes;
}

/** What keyslip itself needs to read and write bytes: a writer that is linear in them. */
const ownBare = (bytes: Uint8Array) => writeOwn(songOf(bytes), new Map());
const outside = (bytes: Uint8Array) => writeMidi(parseMidi(bytes));

const full: TimingOptions = {
  compensate: true,
  joins: true,
  pull: 0.6,
  roll: { sdMs: 14, order: 'unordered' },
  seed: 1,
};

function row(name: string, rounds: number, bytes: Uint8Array, run: () => unknown): Row {
  const [whole = 0, other = 1, own = 1] = medians(
    rounds,
    run,
    () => outside(bytes),
    () => ownBare(bytes),
  );
  const cells = [whole, other, own].map((ms) => `${ms.toFixed(0)} ms`);
  return [name, ...cells, (whole / other).toFixed(2), (whole / Math.max(1, own)).toFixed(2)];
}

export const compiledHead: Row = [
  'what',
  'keyslip',
  'midi-file',
  'own read and write',
  '÷ midi-file',
  '÷ own',
];

/** Compiling in one process, by shape of input, way of switching and timing. */
export function compiledRows(): readonly Row[] {
  const map = loadMap(horns);
  const small = recording(20_000);
  const large = recording(200_000);
  return [
    row('200,000 notes, one track', 5, large, () => compiled(large, map)),
    row('200,000 notes, all timing options', 3, large, () => compiled(large, map, full)),
    ...shapes.map(({ name, of }) => {
      const bytes = of(20_000);
      return row(`20,000 notes, ${name}`, 7, bytes, () => compiled(bytes, map));
    }),
    ...ways.map(([name, file]) => {
      const own = loadMap(file);
      return row(`20,000 notes, switched by ${name}`, 7, small, () => compiled(small, own));
    }),
    row('20,000 notes, all timing options', 7, small, () => compiled(small, map, full)),
  ];
}

const pieceTracks = 40;

function cueOf(keys: string): Cue {
  const parts = Array.from(
    { length: pieceTracks },
    (_, at) => `- {name: P${at}, track: ${at + 1}, map: m${keys}}`,
  );
  const yaml = `format: keyslip-cue/1\nsource: a.mid\noutput: b.mid\nparts:\n${parts.join('\n')}\n`;
  const { value } = readCue(new TextEncoder().encode(yaml), 'bench.cue.yaml');
  if (!value) throw new Error('the bench cue has errors');
  return value;
}

/** Cues of 40 × 5,000 notes. */
export function cueRows(): readonly Row[] {
  const map = loadMap(horns);
  const bytes = tracksOf(pieceTracks, 5000);
  const run = (cue: Cue) => () => {
    const { value } = compileCue(cue, { song: songOf(bytes), maps: new Map([['m', map]]) });
    if (!value) throw new Error('the bench cue does not compile');
  };
  const all = ', level: -3, seat: 0.2, dynamics: {source: keep}, timing: {joins: true}';
  return [
    row('a cue of 40 × 5,000 notes', 3, bytes, run(cueOf(''))),
    row('with levels, seats, kept dynamics and joins', 3, bytes, run(cueOf(all))),
    row('the same tracks without a cue', 3, bytes, () => compiled(bytes, map)),
  ];
}
