import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { partsOf } from '../../src/compile/analyse/index.js';
import { compileCue } from '../../src/cue/index.js';
import { readCue } from '../../src/cue/read/index.js';
import { readMap } from '../../src/map/read/index.js';
import { readMidi } from '../../src/midi/read/index.js';
import { balanceByBar, balanceText } from '../../src/music/inspections/balance.js';
import { sectionOf } from '../../src/music/inspections/sections.js';
import { eventsOf } from '../support/events.js';

const bytesOf = (name: string) => new Uint8Array(readFileSync(new URL(name, import.meta.url)));

function songOf(name: string) {
  const { value } = readMidi(bytesOf(name), name);
  if (!value) throw new Error(`${name} cannot be read`);
  return value;
}

/** A cue beside this test, compiled, and read back. */
function compiled(name: string, maps: readonly string[]) {
  const { value: cue } = readCue(bytesOf(name), name);
  if (!cue) throw new Error(`${name} has errors`);
  const read = maps.map((map) => {
    const { value } = readMap(bytesOf(map), map);
    if (!value) throw new Error(`${map} has errors`);
    return [map, value] as const;
  });
  const source = songOf(cue.source.text);
  const { value, diagnostics } = compileCue(cue, { song: source, maps: new Map(read) });
  const song = value && readMidi(value.bytes, 'out.mid').value;
  return { source, song, diagnostics, maps: new Map(read) };
}

function controller(song: ReturnType<typeof songOf> | undefined, number: number) {
  const track = song?.tracks[1];
  return eventsOf(track).flatMap(({ tick, event }) =>
    event.type === 'controller' && event.controllerType === number ? [{ tick, value: event.value }] : [],
  );
}

/**
 * The monotone cubic through points at x, written anew from Fritsch & Carlson (1980): secants, mean slopes, none at a peak,
 * slopes kept within the circle of radius 3.
 */
function monotone(points: readonly (readonly [x: number, y: number])[]): (x: number) => number {
  const at = (list: readonly number[], index: number) => list[index] ?? 0;
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const d = xs.slice(1).map((x, k) => (at(ys, k + 1) - at(ys, k)) / (x - at(xs, k)));
  const m = xs.map((_, k) => {
    if (k === 0) return at(d, 0);
    if (k === d.length) return at(d, k - 1);
    return at(d, k - 1) * at(d, k) > 0 ? (at(d, k - 1) + at(d, k)) / 2 : 0;
  });
  d.forEach((slope, k) => {
    const radius = Math.sqrt((at(m, k) / slope) ** 2 + (at(m, k + 1) / slope) ** 2);
    if (radius > 3) for (const end of [k, k + 1]) m[end] = (3 * at(m, end)) / radius;
  });
  return (x) => {
    const k = Math.max(
      0,
      xs.findLastIndex((one, index) => one <= x && index < d.length),
    );
    const h = at(xs, k + 1) - at(xs, k);
    const t = (x - at(xs, k)) / h;
    return (
      at(ys, k) * (1 + 2 * t) * (1 - t) ** 2 +
      h * at(m, k) * t * (1 - t) ** 2 +
      at(ys, k + 1) * t * t * (3 - 2 * t) +
      h * at(m, k + 1) * t * t * (t - 1)
    );
  };
}

describe('keepcc: recorded controller 1, the library listens to controller 2', () => {
  it('the curve goes to controller 2, on its ticks, through the levels of both', () => {
    const { source, song, diagnostics } = compiled('keepcc.cue.yaml', ['pindle-flutes.yaml']);
    expect(diagnostics).toEqual([]);
    const [played, written] = [controller(source, 1), controller(song, 2)];
    expect(played.length).toBeGreaterThan(20);
    expect(written.map(({ tick }) => tick)).toEqual(played.map(({ tick }) => tick));
    // pp is 30 by the table that changes nothing (15 a mark), and 20 in the library; and so on to ff
    const curve = monotone([
      [0, 0],
      [30, 20],
      [45, 38],
      [60, 56],
      [75, 74],
      [90, 96],
      [105, 116],
      [127, 127],
    ]);
    expect(written.map(({ value }) => value)).toEqual(played.map(({ value }) => Math.round(curve(value))));
    expect(controller(song, 1)).toEqual([]);
  });
});

describe('glitch: shaped dynamics over chords that are spread over 24 ticks', () => {
  it('has one value from the first to the last note of each chord', () => {
    const { song } = compiled('glitch.cue.yaml', ['tallow-horns.yaml']);
    const track = song?.tracks[1];
    const onsets = eventsOf(track).flatMap(({ tick, event }) => (event.type === 'noteOn' ? [tick] : []));
    const chords = Array.from({ length: onsets.length / 2 }, (_, index) =>
      onsets.slice(2 * index, 2 * index + 2),
    );
    expect(chords).toHaveLength(8);
    expect(chords.map(([from = 0, to = 0]) => to - from)).toEqual(chords.map(() => 24));
    const values = controller(song, 1);
    expect(values.length).toBeGreaterThan(40);
    for (const [from = 0, to = 0] of chords)
      expect(values.filter(({ tick }) => tick > from && tick <= to)).toEqual([]);
  });
});

describe('layerchord: a layer for notes from velocity 100 on four chords of three', () => {
  it('the chord is doubled whole, by its strongest note', () => {
    const { song } = compiled('layerchord.cue.yaml', ['tallow-horns.yaml', 'tallow-bite.yaml']);
    const notes = (track: number) =>
      eventsOf(song?.tracks[track]).filter(({ event }) => event.type === 'noteOn').length;
    expect([notes(1), notes(2)]).toEqual([12, 12]);
  });
});

describe('balance', () => {
  const balance = (name: string) => {
    const song = songOf(name);
    const sections = song.tracks.flatMap((track) =>
      partsOf(track).flatMap((part) => sectionOf(track, part) ?? []),
    );
    return balanceByBar(song, sections);
  };
  const loudness = (bars: ReturnType<typeof balance>, wanted: string) =>
    bars.map(({ sections }) => sections.find(({ name }) => name === wanted)?.loudness);

  it('bal-held: a held note sounds in each of its bars', () => {
    const bars = balance('bal-held.mid');
    expect(bars.map(({ bar }) => bar)).toEqual([1, 2, 3, 4]);
    const trumpets = loudness(bars, 'Trumpets');
    expect(new Set(trumpets).size).toBe(1);
    expect(balanceText(bars)).toContain('bars 1–4: Clarinet covered by Trumpets');
  });

  it('bal-early: a note played early counts in the bar that it belongs to', () => {
    const bars = balance('bal-early.mid');
    expect(bars.map(({ bar }) => bar)).toEqual([2, 3, 4]);
  });

  it('bal-pizz: soft pizzicato is soft, wherever the wheel stands', () => {
    const bars = balance('bal-pizz.mid');
    const celli = bars[0]?.sections.find(({ name }) => name === 'Celli');
    // velocity 40 by MusicXML's forte at 90 lies between pp (30) and p (45)
    expect(celli?.level).toBeCloseTo(40 / 15 - 1, 6);
    expect(bars.flatMap(({ covered }) => covered)).toEqual([]);
    expect(bars.map(({ sections }) => sections.find(({ role }) => role === 'melody')?.name)).toEqual(
      bars.map(() => 'Flute'),
    );
  });
});
