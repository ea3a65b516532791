import tonejs from '@tonejs/midi';
import fc from 'fast-check';
import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { compile } from '../../../src/compile/index.js';
import { readMidi } from '../../../src/midi/index.js';
import { scoreToMidi } from '../../../src/score/index.js';
import { decisionsIn } from '../../support/decided.js';
import { draws } from '../../support/draws.js';
import { mapOf } from '../../support/map.js';
import { direction, encode, note, notes, partwise, played } from '../written.js';

function midi(text: string): Uint8Array {
  const { value: bytes, diagnostics } = scoreToMidi(encode(text), 'a.musicxml');
  if (!bytes) throw new Error(diagnostics.map(({ message }) => message).join());
  return bytes;
}

const upbeat = partwise([
  `<sound tempo="90"/>${notes('G4/4')}`,
  `${direction('<dynamics><f/></dynamics>')}${notes('C4/4 D4/4 E4/8')}`,
  `<attributes><time><beats>3</beats><beat-type>8</beat-type></time></attributes>${notes('F4/6')}`,
]);

/** How often a key is down at once, over all events of the first part; 0 at the end. */
function soundingCounts(bytes: Uint8Array): ReadonlySet<number> {
  const open = new Map<number, number>();
  const counts = new Set([0, 1]);
  for (const event of parseMidi(bytes).tracks[1] ?? []) {
    if (event.type !== 'noteOn' && event.type !== 'noteOff') continue;
    const now = (open.get(event.noteNumber) ?? 0) + (event.type === 'noteOn' ? 1 : -1);
    open.set(event.noteNumber, now);
    counts.add(now);
  }
  for (const count of open.values()) if (count !== 0) counts.add(-1);
  return counts;
}

describe('the MIDI file of a score', () => {
  it('is of format 1 and read without a remark', () => {
    const bytes = midi(upbeat);
    expect(readMidi(bytes, 'a.mid').diagnostics).toEqual([]);
    expect(parseMidi(bytes).header).toMatchObject({
      format: 1,
      numTracks: 2,
      ticksPerBeat: played(upbeat).ppq,
    });
  });

  it('says to another reader what the score says: notes, tempo, metre with the upbeat a bar of its own', () => {
    const { header, tracks } = new tonejs.Midi(midi(upbeat));
    expect(header.tempos.map(({ bpm }) => Math.round(bpm))).toEqual([90]);
    expect(
      header.timeSignatures.map(({ ticks, timeSignature }) => [ticks / header.ppq, timeSignature]),
    ).toEqual([
      [0, [1, 4]],
      [1, [4, 4]],
      [5, [3, 8]],
    ]);
    const horn = tracks.find(({ name }) => name === 'Horn');
    expect(horn?.notes.map(({ ticks, midi: pitch }) => [ticks / header.ppq, pitch])).toEqual([
      [0, 67],
      [1, 60],
      [2, 62],
      [3, 64],
      [5, 65],
    ]);
    expect(horn?.notes[1]?.velocity).toBeCloseTo(90 / 127);
  });

  it('has texts before the onsets and behind the releases of their tick', () => {
    const dot = '<notations><articulations><staccato/></articulations></notations>';
    const slur = (type: string) => `<notations><slur type="${type}"/></notations>`;
    const text = partwise([`${note('C4/4', slur('start'))}${note('D4/4', slur('stop') + dot)}`]);
    const kinds = (parseMidi(midi(text)).tracks[1] ?? []).map(({ type }) => type);
    expect(kinds).toEqual([
      ...['trackName', 'text', 'noteOn'],
      ...['noteOff', 'text', 'noteOn', 'noteOff', 'endOfTrack'],
    ]);
  });

  it('keeps names in any script', () => {
    const bytes = midi(
      partwise([notes('C4/16')], '<score-part id="P1"><part-name>Труба 小号</part-name></score-part>'),
    );
    expect(readMidi(bytes, 'a.mid').value?.tracks[1]?.name).toBe('Труба 小号');
  });

  it('is what the compiler takes: marks choose the articulations', () => {
    const map = mapOf(`
articulations:
  long: {means: [tenuto], switch: {note: C0}}
  short: {means: [staccato], switch: {note: D0}}
  plucked: {means: [pizz.], switch: {note: E0}}
  joined: {means: [legato], switch: {note: F0}}
rules:
  - use: long
`);
    const dot = '<notations><articulations><staccato/></articulations></notations>';
    const slur = (type: string) => `<notations><slur type="${type}"/></notations>`;
    const text = partwise([
      `${note('C4/4', dot)}${note('D4/4', slur('start'))}${note('E4/4', slur('stop'))}${direction('<words>pizz.</words>')}${notes('F4/4')}`,
      `${direction('<words>arco</words>')}${notes('G4/16')}`,
    ]);
    const song = readMidi(midi(text), 'a.mid').value;
    if (!song) throw new Error('not read');
    const { value, diagnostics } = compile(song, [
      { part: { track: 2, trackName: 'Horn', channel: 0 }, map },
    ]);
    expect(diagnostics).toEqual([]);
    const decided = decisionsIn(value?.parts[0]).map(({ articulation }) => articulation);
    expect(decided).toEqual(['short', 'joined', 'long', 'plucked', 'long']);
  });

  it('strikes a key once where voices meet, and lets it go before it is struck again', () => {
    const text = partwise([
      `${notes('C4/16')}<backup><duration>16</duration></backup>${notes('C4/4 C4/4').replaceAll('</duration>', '</duration><voice>2</voice>')}`,
    ]);
    const events = (parseMidi(midi(text)).tracks[1] ?? []).filter(({ type }) => type.startsWith('note'));
    expect(events.map(({ type }) => type)).toEqual(['noteOn', 'noteOff', 'noteOn', 'noteOff']);
  });

  it('never has a note without an end, whatever the score', () => {
    const word = fc
      .tuple(fc.constantFrom('C', 'D', 'E'), fc.integer({ min: 0, max: 9 }), fc.integer({ min: 0, max: 20 }))
      .map(([step, octave, length]) => `${step}${octave}/${length}`);
    fc.assert(
      fc.property(fc.array(fc.array(word, { maxLength: 8 }), { minLength: 1, maxLength: 4 }), (bars) => {
        const bytes = midi(partwise(bars.map((words) => (words.length > 0 ? notes(words.join(' ')) : ''))));
        expect(soundingCounts(bytes)).toEqual(new Set([0, 1]));
        expect(readMidi(bytes, 'a.mid').diagnostics).toEqual([]);
      }),
      { numRuns: draws(100) },
    );
  });

  it('or a diagnostic, is the answer to any change of a score', () => {
    const text = upbeat;
    fc.assert(
      fc.property(fc.nat(text.length - 1), fc.nat(40), fc.string({ maxLength: 6 }), (at, cut, put) => {
        const { value: bytes, diagnostics } = scoreToMidi(
          encode(text.slice(0, at) + put + text.slice(at + cut)),
          'a',
        );
        expect(bytes !== undefined || diagnostics.some(({ severity }) => severity === 'error')).toBe(true);
      }),
      { numRuns: draws(400) },
    );
  });
});
