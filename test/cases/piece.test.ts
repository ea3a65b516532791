import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { proofOf } from '../../src/api/proof.js';
import { compileCue, mapsOf } from '../../src/cue/index.js';
import { readCue } from '../../src/cue/read/index.js';
import { readMap } from '../../src/map/read/index.js';
import { readMidi } from '../../src/midi/read/index.js';
import { decisionsIn, nowIn } from '../support/decided.js';

// An invented piece of 16 parts and 56 bars: changing metres, 24 tempos, spread chords, pedal and bends.

const bytesOf = (name: string) => new Uint8Array(readFileSync(new URL(`piece/${name}`, import.meta.url)));

function compiled(take: string, change: (cue: string) => string = (cue) => cue) {
  const text = change(new TextDecoder().decode(bytesOf('piece.cue.yaml')));
  const { value: cue } = readCue(new TextEncoder().encode(text), 'piece.cue.yaml');
  const { value: song } = readMidi(bytesOf(take), take);
  if (!cue || !song) throw new Error('the piece cannot be read');
  const maps = mapsOf(cue).map(({ text: path }) => {
    const { value } = readMap(bytesOf(path), path);
    if (!value) throw new Error(`${path} has errors`);
    return [path, value] as const;
  });
  const { value, diagnostics } = compileCue(cue, { song, maps: new Map(maps) });
  if (!value) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
  return { value, song, diagnostics };
}

describe('the piece', () => {
  const { value, diagnostics } = compiled('take.mid');

  it('is compiled in all of its parts, and every note is heard as meant', () => {
    expect(value.parts).toHaveLength(17);
    const { value: out } = readMidi(value.bytes, 'out.mid');
    const proof = out && proofOf(out, value.planned.song, value, true);
    expect(proof?.violations).toEqual([]);
    expect(proof?.notes).toBe(value.parts.reduce((sum, { decided }) => sum + decided.length, 0));
    expect(diagnostics.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  it('gives chords that are spread by hand one articulation each, and moves them as one', () => {
    const spread = value.parts.flatMap(({ part, line }) =>
      line.onsets.some(({ tick, lastTick }) => lastTick > tick) ? [part.trackName] : [],
    );
    expect(spread).toEqual(expect.arrayContaining(['Horns', 'Horns – bite', 'Piano', 'Violins 2', 'Violas']));
    for (const { line, decided } of value.parts) {
      const names = new Map(
        decisionsIn({ decided }).map(({ note, articulation }) => [note.onIndex, articulation]),
      );
      for (const { notes } of line.onsets)
        expect(new Set(notes.map(({ onIndex }) => names.get(onIndex))).size).toBe(1);
    }
  });

  it('as format 0 gives every part that is chosen by its channel what format 1 gives it', () => {
    let channel = 0;
    const byChannel = (cue: string) => cue.replaceAll(/track: [\w ]+/gu, () => `channel: ${++channel}`);
    const other = compiled('type0.mid', byChannel);
    expect(channel).toBe(16);
    const sent = (one: typeof value) =>
      one.parts.map(({ part, retimed, switched }) => [
        part.trackName,
        part.track,
        nowIn({ retimed }).map(({ note, articulation }) => [
          note.tick,
          note.endTick,
          note.pitch,
          articulation,
        ]),
        Array.from({ length: switched.insertions.length }, (_, index) => [
          switched.insertions.tickOf(index),
          switched.insertions.messageOf(index),
        ]),
        switched.sent,
      ]);
    expect(sent(other.value)).toEqual(sent(value));
    const { value: out } = readMidi(other.value.bytes, 'out.mid');
    const proof = out && proofOf(out, other.value.planned.song, other.value, true);
    expect(proof?.violations).toEqual([]);
    // Marks that no channel prefix gives to a part.
    const codes = other.diagnostics.map(({ code }) => code);
    expect(codes.filter((code) => code !== 'mark-for-all')).toEqual(diagnostics.map(({ code }) => code));
    expect(codes).toContain('mark-for-all');
  });

  it('with another bar 20, every bar but those around it is decided as before', () => {
    const other = compiled('take-alt.mid').value;
    const decided = (one: typeof value) =>
      one.parts.flatMap(({ part, line, decided }) =>
        decisionsIn({ decided }).map(({ note, articulation }) => {
          const bar = line.clock.position(note.tick)?.bar ?? 0;
          return `${part.trackName} ${bar} ${note.pitch} ${note.tick} ${articulation}`;
        }),
      );
    const [before, after] = [new Set(decided(value)), new Set(decided(other))];
    const changed = [...before, ...after].filter((note) => before.has(note) !== after.has(note));
    const bars = changed.map((note) => Number(/ (\d+) \d+ \d+ /u.exec(note)?.[1]));
    expect(changed.length).toBeGreaterThan(0);
    for (const bar of bars) expect(Math.abs(bar - 20)).toBeLessThanOrEqual(2);
  });
});
