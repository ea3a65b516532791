import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import v8 from 'node:v8';
import vm from 'node:vm';
import { type MidiEvent, parseMidi, writeMidi } from 'midi-file';
import { compile, compileParts } from '../../src/compile/index.js';
import { compileCue } from '../../src/cue/index.js';
import { readCue } from '../../src/cue/read/index.js';
import type { Cue } from '../../src/cue/types.js';
import { readMap } from '../../src/map/read/index.js';
import type { ArticulationMap } from '../../src/map/types.js';
import { readMidi } from '../../src/midi/read/index.js';
import type { SheetTask } from '../../src/sheet/task.js';
import {
  gaussian8,
  gridTable,
  heldBackSeeds,
  type Jitter,
  tempi,
  uniform15,
} from '../timing/performances.js';
import { printSheet } from './sheet.js';

/**
 * Ratios measured in one run, so that the machine's speed cancels out. Each figure is the best of several rounds, the
 * two sides taken in turn.
 */
const map = loadMap('maps/saltmarsh-horns.yaml');

/** A recorded line at 96 ticks a quarter: sixteenths and eighths, joined and detached, with a controller now and then. */
function recording(notes: number): Uint8Array {
  const events: MidiEvent[] = [];
  for (let index = 0; index < notes; index++) {
    const step = [24, 24, 48, 24, 96, 48][index % 6] ?? 24;
    const held = [8, 12, 50, 26, 70, 30][(index * 7) % 6] ?? 20;
    const down = Math.min(held, step - 1);
    if (index % 8 === 0)
      events.push({ deltaTime: 0, type: 'controller', channel: 0, controllerType: 1, value: index % 128 });
    const noteNumber = 36 + ((index * 5) % 36);
    events.push({ deltaTime: 0, type: 'noteOn', channel: 0, noteNumber, velocity: 60 + (index % 60) });
    events.push({ deltaTime: down, type: 'noteOff', channel: 0, noteNumber, velocity: 0 });
    const last = events.at(-1);
    if (last) events.push({ deltaTime: step - down, type: 'text', meta: true, text: '' });
  }
  const kept = mergeRests(events);
  kept.push({ deltaTime: 0, type: 'endOfTrack', meta: true });
  return Uint8Array.from(
    writeMidi({ header: { format: 0, numTracks: 1, ticksPerBeat: 96 }, tracks: [kept] }),
  );
}

/** Takes the rests' placeholder texts out again, their time going to the next event. */
function mergeRests(events: readonly MidiEvent[]): MidiEvent[] {
  let waiting = 0;
  return events.flatMap((event) => {
    const deltaTime = event.deltaTime + waiting;
    waiting = event.type === 'text' ? deltaTime : 0;
    return event.type === 'text' ? [] : [{ ...event, deltaTime }];
  });
}

function loadMap(file: string): ArticulationMap {
  const { value } = readMap(new Uint8Array(readFileSync(file)), file);
  if (!value) throw new Error(`${file} has errors`);
  return value;
}

function compileBytes(bytes: Uint8Array): Uint8Array {
  const { value: song } = readMidi(bytes, 'bench.mid');
  const result = song && compile(song, [{ part: { track: 1, trackName: '', channel: 0 }, map }]).value;
  if (!result) throw new Error('the bench recording does not compile');
  return result.bytes;
}

/** A piece of 40 tracks, each with a recording of 5,000 notes, and a cue of all of them. */
const pieceTracks = 40;
function piece(): Uint8Array {
  const { tracks } = parseMidi(recording(5000));
  const header = { format: 1 as const, numTracks: pieceTracks, ticksPerBeat: 96 };
  return Uint8Array.from(
    writeMidi({ header, tracks: Array.from({ length: pieceTracks }, () => tracks[0] ?? []) }),
  );
}

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

function compileCueBytes(cue: Cue, bytes: Uint8Array): Uint8Array {
  const { value: song } = readMidi(bytes, 'bench.mid');
  const result = song && compileCue(cue, { song, maps: new Map([['m', map]]) }).value;
  if (!result) throw new Error('the bench cue does not compile');
  return result.bytes;
}

/** What a sheet of eight parts is made from, each the first 625 notes of the recording, a third apart. */
function sheetTask(): SheetTask {
  const { header, tracks } = parseMidi(recording(625));
  const parts = Array.from({ length: 8 }, (_, at) =>
    (tracks[0] ?? []).map((event) =>
      event.type === 'noteOn' || event.type === 'noteOff'
        ? { ...event, noteNumber: event.noteNumber - 6 + 3 * at }
        : event,
    ),
  );
  const bytes = writeMidi({ header: { ...header, format: 1, numTracks: 8 }, tracks: parts });
  const { value: song } = readMidi(Uint8Array.from(bytes), 'bench.mid');
  if (!song) throw new Error('the bench piece is not read');
  const jobs = song.tracks.map(({ number }) => ({ part: { track: number, trackName: '', channel: 0 }, map }));
  const { parts: compiled, tracks: now } = compileParts(song, jobs);
  return {
    title: 'Bench',
    song,
    tracks: now,
    jobs: compiled.map((one) => ({ compiled: one, name: `Part ${one.part.track}` })),
    diagnostics: [],
  };
}

function parseAndWrite(bytes: Uint8Array): readonly number[] {
  return writeMidi(parseMidi(bytes));
}

/** Frees what is no longer used, so that no side pays for another's garbage. */
v8.setFlagsFromString('--expose-gc');
const collectGarbage = vm.runInNewContext('gc') as () => void;

/** The best time of each side, taken in turn. Unit: ms. */
function race(rounds: number, ...sides: readonly (() => unknown)[]): readonly number[] {
  const best = sides.map(() => Number.POSITIVE_INFINITY);
  for (let round = 0; round < rounds; round++)
    sides.forEach((side, index) => {
      collectGarbage();
      const began = performance.now();
      side();
      best[index] = Math.min(best[index] ?? 0, performance.now() - began);
    });
  return best;
}

function print(what: string, ratio: number, aim: number, detail: string): void {
  const verdict = ratio <= aim ? 'met' : 'NOT met';
  console.log(`${what.padEnd(58)} ${ratio.toFixed(2).padStart(7)}   aim ≤ ${aim} ${verdict}   (${detail})`);
}

/** The share of beats whose subdivision is found, on performances that the costs were not tuned on. */
function printGrids(name: string, jitter: Jitter): void {
  const cells = gridTable(heldBackSeeds, jitter);
  const rows = [...new Set(cells.map(({ kind }) => kind))];
  console.log(`beats whose grid is found, in %, jitter ${name}: at ${tempi.join(', ')} bpm`);
  for (const kind of rows) {
    const shares = cells
      .filter((cell) => cell.kind === kind)
      .map(({ right, beats }) => ((100 * right) / beats).toFixed(1));
    console.log(`  ${kind.padEnd(14)} ${shares.map((share) => share.padStart(6)).join(' ')}`);
  }
  const [right, beats] = cells.reduce(([r, b], cell) => [r + cell.right, b + cell.beats], [0, 0]);
  console.log(`  ${'all'.padEnd(14)} ${((100 * right) / beats).toFixed(2).padStart(6)}   aim ≥ 98`);
}

const ms = (value: number | undefined) => `${(value ?? 0).toFixed(0)} ms`;

const large = recording(200_000);
const small = recording(20_000);
const [whole = 0, bare = 1] = race(
  5,
  () => compileBytes(large),
  () => parseAndWrite(large),
);
const output = compileBytes(large);
console.log(`200,000 notes: ${large.length} bytes in, ${output.length} bytes out`);
print(
  'compile ÷ midi-file parse and write of the same bytes',
  whole / bare,
  1.5,
  `${ms(whole)} ÷ ${ms(bare)}`,
);
const [own = 1] = race(3, () => parseAndWrite(output));
print('  the same ÷ parse and write of the output', whole / own, 1.5, `${ms(whole)} ÷ ${ms(own)}`);
const [little = 1] = race(5, () => compileBytes(small));
print('20,000 → 200,000 notes', whole / little, 11, `${ms(whole)} ÷ ${ms(little)}`);

const whole40 = piece();
const plainCue = cueOf('');
const fullCue = cueOf(', level: -3, seat: 0.2, dynamics: {source: keep}, timing: {joins: true}');
const [plain = 0, full = 0, bare40 = 1] = race(
  3,
  () => compileCueBytes(plainCue, whole40),
  () => compileCueBytes(fullCue, whole40),
  () => parseAndWrite(whole40),
);
const cueDetail = (time: number) => `${ms(time)} ÷ ${ms(bare40)}`;
print('a cue of 40 × 5,000 notes ÷ parse and write', plain / bare40, 2.5, cueDetail(plain));
print('  with levels, seats, kept dynamics and joins', full / bare40, 2.5, cueDetail(full));

printGrids('±15 ms evenly', uniform15);
printGrids('normally, sd 8 ms', gaussian8);

const folder = mkdtempSync(join(tmpdir(), 'keyslip-bench-'));
writeFileSync(join(folder, 'in.mid'), recording(2000));
writeFileSync(join(folder, 'empty.mjs'), '');
const words = [
  'dist/keyslip.js',
  'compile',
  join(folder, 'in.mid'),
  '--map',
  'maps/saltmarsh-horns.yaml',
  '-o',
  join(folder, 'out.mid'),
];
const start = (of: readonly string[]) => () => {
  const { status } = spawnSync(process.execPath, of);
  if (status !== 0) throw new Error('a bench process failed');
};
const [process1 = 0, empty = 1] = race(15, start(words), start([join(folder, 'empty.mjs')]));
print(
  '2,000 notes as a whole process ÷ an empty Node start',
  process1 / empty,
  3,
  `${ms(process1)} ÷ ${ms(empty)}`,
);
await printSheet(sheetTask(), join(folder, 'sheet.html'));
rmSync(folder, { recursive: true });
