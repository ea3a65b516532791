import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { proofOf } from '../../src/api/proof.js';
import { partsOf } from '../../src/compile/analyse/index.js';
import { compile } from '../../src/compile/index.js';
import { readMidi } from '../../src/midi/read/index.js';
import { notesOf } from '../cue/support.js';
import { readWhole } from '../support/map.js';
import { songOf, type TestNote, textAt, trackOf } from '../support/song.js';

/** What is sent to the library, as [key, velocity], and whether the proof finds every note as meant. */
function sent(file: string, notes: readonly TestNote[], mark?: { tick: number; name: string }) {
  const map = readWhole(readFileSync(new URL(`keys/${file}`, import.meta.url), 'utf8'));
  const song = songOf([trackOf(notes, mark ? [textAt(mark.tick, `[${mark.name}!]`)] : [])]);
  const [part] = song.tracks.flatMap(partsOf);
  if (!part) throw new Error('no part');
  const { value } = compile(song, [{ part, map }]);
  const out = value && readMidi(value.bytes, 'out.mid').value;
  if (!out) throw new Error('it does not compile');
  expect(proofOf(out, song, value, true).violations).toEqual([]);
  return notesOf(out.tracks[0]).map(([, , key, velocity]) => [key, velocity]);
}

/** Short, long, short, at 120 bpm and 480 ticks a quarter; a tick is 1.0417 ms. */
const line = (pitch: number, velocity: number): readonly TestNote[] =>
  [
    [480, 560],
    [960, 1700],
    [1920, 2000],
  ].map(([tick = 0, end = 0]) => ({ tick, end, pitch, velocity }));

describe('libraries that the format could not say', () => {
  it('quern-snare: strokes go out on keys of their own, at the velocity that was played', () => {
    // D1 is 38 where middle C is C3; the player struck one key throughout
    expect(sent('quern-snare.yaml', line(38, 90), { tick: 1920, name: 'flam' })).toEqual([
      [38, 90],
      [40, 90],
      [41, 90],
    ]);
  });

  it('pindle-clarinet: played velocities are laid into the half that has the recording', () => {
    const softest = sent('pindle-clarinet.yaml', line(62, 1)).map(([, velocity]) => velocity);
    const loudest = sent('pindle-clarinet.yaml', line(62, 127)).map(([, velocity]) => velocity);
    expect([softest, loudest]).toEqual([
      [51, 1, 51],
      [127, 50, 127],
    ]);
  });
});
