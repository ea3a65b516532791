import { describe, expect, it } from 'vitest';
import { proofOf } from '../../src/api/proof.js';
import { differenceOfSeat, seatOfDifference, seatOfPan } from '../../src/dynamics/index.js';
import { mapOf } from '../support/map.js';
import { songOf, trackOf } from '../support/song.js';
import { compiledCue, controllerOf, notesOf } from './support.js';

/** A tick is 1.0417 ms. */
const tick = 500 / 480;
const line = [480, 960, 1440].map((at) => ({ tick: at, end: at + 360, pitch: 60, velocity: 80 }));
const take = songOf([trackOf(line, [], 'Horns')]);
const library = (speaksAfter: number, more = 'reference-level: -30\n') =>
  mapOf(
    `${more}articulations: {plain: {switch: {note: C0}, speaks-after: ${speaksAfter}ms}}\nrules: [{use: plain}]\n`,
  );

function layered(base: number, layer: number, keys = '', layerKeys = '', more?: string) {
  const found = compiledCue(
    `  - {name: Horns, track: Horns, map: a.yaml, ${keys}layers: [{name: x, map: b.yaml${layerKeys}}]}\n`,
    take,
    { 'a.yaml': library(base, more), 'b.yaml': library(layer, more) },
  );
  const { compiled, song } = found;
  expect(compiled && song && proofOf(song, compiled.planned.song, compiled, true)).toMatchObject({
    violations: [],
  });
  return { ...found, notes: song?.tracks.map((track) => notesOf(track)) ?? [] };
}

/** When notes are heard to begin. Unit: ms. */
const heard = (notes: readonly (readonly number[])[] = [], speaksAfter: number) =>
  notes.map(([at = 0]) => at * tick + speaksAfter);

describe('a layer of a measured library', () => {
  it.each([
    [90, 40],
    [40, 90],
    [140, 140],
    [0, 60],
  ])('is heard with its part, of which %d ms are known, though it speaks after %d ms', (base, layer) => {
    const { notes, diagnostics } = layered(base, layer);
    expect(diagnostics).toEqual([]);
    expect(notes[0]).toEqual(notesOf(take.tracks[0]));
    const [part, double] = [heard(notes[0], base), heard(notes[1], layer)];
    expect(double).toHaveLength(3);
    double.forEach((ms, index) => {
      expect(Math.abs(ms - (part[index] ?? 0))).toBeLessThan(tick);
    });
  });

  it('that starts later than its part sounds as long as that', () => {
    const { notes } = layered(90, 40);
    const lengths = notes[1]?.map(([at = 0, end = 0]) => end - at);
    expect(lengths).toEqual([360, 360, 360]);
  });

  it('is on time where its part is compensated, or where the layer says so itself', () => {
    for (const [keys, own] of [
      ['timing: {compensate: true}, ', ''],
      ['', ', timing: {compensate: true}'],
    ] as const) {
      const at = heard(layered(90, 40, keys, own).notes[1], 40);
      at.forEach((ms, index) => {
        expect(Math.abs(ms - 500 * (index + 1))).toBeLessThan(tick);
      });
    }
    const left = layered(90, 40, '', ', timing: {compensate: false}').notes;
    expect(left[1]).toEqual(left[0]);
  });

  it('stands where its part does where either was not measured', () => {
    const { notes } = layered(90, 40, '', '', '');
    expect(notes[1]).toEqual(notes[0]);
  });

  it('is heard where its part was recorded, if neither is told a seat', () => {
    const song = (more: string) =>
      compiledCue('  - {name: H, track: Horns, map: a.yaml, layers: [{name: x, map: b.yaml}]}\n', take, {
        'a.yaml': library(0, `${more}seat: -0.4\n`),
        'b.yaml': library(0, `${more}seat: 0.2\n`),
      }).song;
    const [part = [], layer = []] = (song('reference-level: -30\n')?.tracks ?? []).map((track) =>
      controllerOf(track, 10),
    );
    expect(part).toEqual([]);
    const moved = differenceOfSeat(seatOfPan(layer[0]?.[1] ?? 0));
    expect(seatOfDifference(differenceOfSeat(0.2) + moved)).toBeCloseTo(-0.4, 1);
    expect(song('')?.tracks.map((track) => controllerOf(track, 10))).toEqual([[], []]);
  });
});
