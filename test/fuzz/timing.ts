import { proofOf } from '../../src/api/proof.js';
import { partsOf } from '../../src/compile/analyse/index.js';
import { compile, compileParts, withPreroll } from '../../src/compile/index.js';
import type { ArticulationMap } from '../../src/map/types.js';
import { readMidi } from '../../src/midi/read/index.js';
import type { Song } from '../../src/midi/song.js';
import { asPlayed, type TimingOptions } from '../../src/timing/options.js';
import { rollOrders } from '../../src/timing/roll.js';
import { pick } from './mutate.js';
import { mapFrom, refused, type Seeds, shown } from './outcome.js';

/**
 * Random music by a random map with random timing: what is written must be proved, both against the music as this run
 * moved it and by a second run with the same options, and the music must come apart again.
 *
 * @param hasResets whether the music also has programs, banks and resets of its own, in between
 */
export function timingCase(seeds: Seeds, random: () => number, hasResets = false): string {
  const bytes = randomMusic(random, hasResets);
  const { value: played, diagnostics } = readMidi(bytes, 'fuzz.mid');
  shown(diagnostics);
  if (!played) return refused(diagnostics);
  const map = knownMap(pick(random, seeds.maps));
  const bars = random() < 0.1 ? 1 + Math.floor(random() * 2) : 0;
  const song = bars === 0 ? played : (withPreroll(played, bars) ?? played);
  const timing = randomTiming(random);
  const restate = random() < 0.2 ? { everyBars: 1, afterRest: { unit: 'ms', ms: 500 } as const } : {};
  const restating = {
    ...map,
    switching: { ...map.switching, restate: { ...map.switching.restate, ...restate } },
  };
  const jobs = song.tracks.flatMap(partsOf).map((part) => ({ part, map: restating, timing }));
  const compiled = compile(song, jobs, played);
  shown(compiled.diagnostics);
  if (!compiled.value) return refused(compiled.diagnostics);
  const again = readMidi(compiled.value.bytes, 'out.mid');
  if (!again.value) throw new Error(`the output cannot be read: ${again.diagnostics[0]?.message}`);
  for (const parts of [compiled.value, compileParts(song, jobs)]) proved(again.value, song, parts);
  return 'compiled and proved';
}

const maps = new Map<string, ArticulationMap>();

function knownMap(text: string): ArticulationMap {
  const map = maps.get(text) ?? mapFrom(text);
  maps.set(text, map);
  return map;
}

function proved(output: Song, song: Song, parts: Parameters<typeof proofOf>[2]): void {
  const [violation] = proofOf(output, song, parts, true).violations;
  if (violation)
    throw new Error(`not proved: ${violation.kind} at tick ${violation.tick}: ${violation.message}`);
}

function randomTiming(random: () => number): TimingOptions {
  const widths = [4, 8, 12, 16, 24, 32].map((denominator) => ({ numerator: 1, denominator }));
  const [is, some] = [(share: number) => random() < share, (most: number) => random() * most];
  return {
    ...asPlayed,
    compensate: is(0.6),
    joins: is(0.6),
    ...(is(0.6) ? { pull: is(0.3) ? 1 : some(1) } : {}),
    ...(is(0.5)
      ? { grids: is(0.7) ? [pick(random, widths)] : [pick(random, widths), pick(random, widths)] }
      : {}),
    ...(is(0.5) ? { roll: { sdMs: is(0.2) ? some(1000) : some(40), order: pick(random, rollOrders) } } : {}),
    ...(is(0.5) ? { loosenMs: is(0.2) ? some(1000) : some(20) } : {}),
    seed: Math.floor(random() * 1e9),
  };
}

interface Writer {
  readonly bytes: number[];
  /** The time since the last event is written before each. */
  event(...message: number[]): void;
  wait(ticks: number): void;
}

/** A small file: notes near each other, chords, repeated keys, strays, and the music's own messages between them. */
function randomMusic(random: () => number, hasResets: boolean): Uint8Array {
  const ppq = pick(random, [24, 96, 384, 480, 960]);
  const tracks = random() < 0.2 ? 2 : 1;
  const chunks = Array.from({ length: tracks }, () => randomTrack(random, ppq, hasResets));
  return Uint8Array.from([
    ...[0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, tracks === 1 ? pick(random, [0, 1]) : 1, 0, tracks],
    ...[ppq >> 8, ppq & 0xff],
    ...chunks.flatMap((bytes) => [0x4d, 0x54, 0x72, 0x6b, ...lengthOf(bytes), ...bytes]),
  ]);
}

function lengthOf({ length }: readonly number[]): readonly number[] {
  return [(length >>> 24) & 0xff, (length >>> 16) & 0xff, (length >>> 8) & 0xff, length & 0xff];
}

function randomTrack(random: () => number, ppq: number, hasResets: boolean): readonly number[] {
  const writer = trackWriter();
  const channel = random() < 0.8 ? 0 : Math.floor(random() * 16);
  const low = 48 + Math.floor(random() * 24);
  const range = 1 + Math.floor(random() * 12);
  const unit = pick(random, [1, 3, Math.round(ppq / 24), Math.round(ppq / 8), Math.round(ppq / 4), ppq]);
  const down: number[] = [];
  const events = 2 + Math.floor(random() * 40);
  const meanders = random() < 0.3;
  const strike = () => {
    const pitch = low + Math.floor(random() * range);
    writer.event(0x90 | channel, pitch, 1 + Math.floor(random() * 127));
    down.push(pitch);
  };
  const release = () => {
    const [pitch] = down.splice(random() < 0.9 ? 0 : Math.floor(random() * down.length), 1);
    if (pitch !== undefined) writer.event(0x80 | channel, pitch, 64);
  };
  for (let count = 0; count < events; count += 1) {
    if (random() < 0.6) writer.wait(Math.floor(random() * random() * unit * 3));
    const choice = random();
    if (choice < 0.48) strike();
    else if (choice < 0.93) release();
    else if (meanders) foreignEvent(writer, random, channel, low, hasResets);
  }
  if (random() < 0.9) for (const pitch of down) writer.event(0x80 | channel, pitch, 0);
  if (random() < 0.3) writer.wait(Math.floor(random() * ppq));
  if (random() < 0.95) writer.event(0xff, 0x2f, 0);
  return writer.bytes;
}

/** What else a recording may have between its notes. */
function foreignEvent(
  writer: Writer,
  random: () => number,
  channel: number,
  low: number,
  hasResets: boolean,
): void {
  const value = () => Math.floor(random() * 128);
  const bpm = 20 + random() * 280;
  const tempo = Math.round(60_000_000 / bpm);
  const kinds: readonly (() => void)[] = [
    () => writer.event(0xff, 0x51, 3, tempo >> 16, (tempo >> 8) & 0xff, tempo & 0xff),
    () => writer.event(0xff, 0x58, 4, 1 + Math.floor(random() * 7), 2 + Math.floor(random() * 2), 24, 8),
    () => writer.event(0xb0 | channel, pick(random, [1, 7, 11, 64]), value()),
    () => writer.event(0xb0 | ((channel + 1) % 16), 1, value()),
    () => writer.event(0xe0 | channel, value(), value()),
    // A release without a note.
    () => writer.event(0x80 | channel, low, 0),
  ];
  const resets: readonly (() => void)[] = [
    () => writer.event(0xc0 | channel, value()),
    () => writer.event(0xb0 | channel, pick(random, [0, 32, 120, 121, 123]), 0),
    // General MIDI System On.
    () => writer.event(0xf0, 5, 0x7e, 0x7f, 9, 1, 0xf7),
  ];
  pick(random, hasResets ? [...kinds, ...resets] : kinds)();
}

function trackWriter(): Writer {
  const bytes: number[] = [];
  let waited = 0;
  return {
    bytes,
    wait(ticks) {
      waited += ticks;
    },
    event(...message) {
      const groups = [waited & 0x7f];
      for (let rest = waited >>> 7; rest > 0; rest >>>= 7) groups.unshift((rest & 0x7f) | 0x80);
      bytes.push(...groups, ...message);
      waited = 0;
    },
  };
}
