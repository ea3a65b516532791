import { readFileSync } from 'node:fs';
import JZZ from 'jzz';
import smf from 'jzz-midi-smf';
import { describe, expect, it } from 'vitest';
import { clipOfSong, type SoundingPart, scaleUp, writeClip } from '../../../src/clip/index.js';
import { compile } from '../../../src/compile/index.js';
import { readMap } from '../../../src/map/index.js';
import { meaningsOfNotes } from '../../../src/map/meaning/index.js';
import { partsOf, readMidi } from '../../../src/midi/index.js';
import { decisionsIn } from '../../support/decided.js';
import { notesOn } from '../../support/events.js';
import { realFiles } from '../real.js';

smf(JZZ);

interface ReadMessage extends ReadonlyArray<number> {
  readonly tt: number;
}

/** A clip as an outside reader has it (jzz-midi-smf, MIT). */
function readBack(bytes: Uint8Array) {
  const Reader = (JZZ.MIDI as unknown as { Clip: new (text: string) => unknown }).Clip;
  const read = new Reader(Buffer.from(bytes).toString('latin1')) as ArrayLike<ReadMessage> & {
    validate(): readonly { readonly msg: string }[] | undefined;
  };
  return { messages: Array.from(read), complaints: (read.validate() ?? []).map(({ msg }) => msg) };
}

const map = readMap(new Uint8Array(readFileSync('maps/lantern-street-strings.yaml')), 'map.yaml').value;
if (!map) throw new Error('the map has errors');

describe('real files as clips', () => {
  it.each(realFiles())('$name is read as it was written', ({ name, bytes }) => {
    const song = readMidi(bytes, name).value;
    if (!song) throw new Error(`${name} is not read`);
    const parts = song.tracks.flatMap(partsOf);
    const compiled = compile(
      song,
      parts.map((part) => ({ part, map })),
    ).value;
    const sounding = parts.map((part, index): SoundingPart => {
      const decisions = decisionsIn(compiled?.parts[index]);
      const meanings = meaningsOfNotes(decisions, map.articulations);
      return { ...part, name: part.trackName, meaningOf: (onIndex) => meanings.get(onIndex) };
    });
    const { clip } = clipOfSong(song, sounding);
    const written = clip && writeClip(clip).bytes;
    if (!clip || !written) throw new Error(`${name} is not written`);
    const { messages, complaints } = readBack(written);
    expect(complaints.filter((one) => !one.startsWith('Missing Delta'))).toEqual([]);
    const heard = messages
      .filter((one) => (one[0] ?? 0) >> 4 === 4 && (one[1] ?? 0) >> 4 === 9)
      .map((one) =>
        [one.tt, one[0], (one[1] ?? 0) & 15, one[2], (one[4] ?? 0) * 256 + (one[5] ?? 0)].join(' '),
      );
    const meant = clip.parts.flatMap(({ group, channel }, index) => {
      const { track, channel: own } = parts[index] ?? { track: 0, channel: 0 };
      const source = song.tracks[track - 1];
      return (source ? notesOn(source, own) : []).map(({ tick, pitch, velocity }) =>
        [tick, 0x40 + group, channel, pitch, scaleUp(velocity, 7, 16)].join(' '),
      );
    });
    expect(heard.sort()).toEqual(meant.sort());
    const decided = compiled?.parts.some(({ decided }) => decided.length > 0);
    const withArticulation = messages.filter(
      (one) => (one[1] ?? 0) >> 4 === 9 && (one[3] ?? 0) >= 0x10,
    ).length;
    expect(withArticulation > 0).toBe(decided === true);
  });
});
