import fc from 'fast-check';
import { parseMidi, writeMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { notesWithin } from '../../../src/midi/notes/within.js';
import { readMidi } from '../../../src/midi/read/index.js';
import { writeMidi as writeOwn } from '../../../src/midi/write/index.js';

/** A track of notes of one tick each, with a controller between them, as an outside writer makes it. */
function songOf(gaps: readonly number[]) {
  const events = gaps.flatMap((deltaTime, index) => [
    { deltaTime, type: 'noteOn', channel: 0, noteNumber: 40 + (index % 40), velocity: 80 } as const,
    { deltaTime: 1, type: 'noteOff', channel: 0, noteNumber: 40 + (index % 40), velocity: 0 } as const,
    { deltaTime: 1, type: 'controller', channel: 0, controllerType: 1, value: index % 128 } as const,
  ]);
  const header = { format: 0, numTracks: 1, ticksPerBeat: 96 } as const;
  const track = [...events, { deltaTime: 0, type: 'endOfTrack', meta: true } as const];
  const { value } = readMidi(Uint8Array.from(writeMidi({ header, tracks: [track] })), 'a.mid');
  if (!value) throw new Error('not read');
  return value;
}

/** What stands in a file, with its ticks, as an outside reader reads it. */
function said(bytes: Uint8Array | undefined) {
  let tick = 0;
  return (parseMidi(bytes ?? new Uint8Array()).tracks[0] ?? []).map((event) => {
    tick += event.deltaTime;
    return { tick, type: event.type };
  });
}

describe('the notes that are struck within a stretch', () => {
  it('are all that is left of the notes; everything else stays on its tick', () => {
    fc.assert(
      fc.property(
        fc.array(fc.nat(200), { minLength: 1, maxLength: 30 }),
        fc.nat(2000),
        fc.nat(2000),
        (gaps, from, to) => {
          const song = songOf(gaps);
          const whole = said(writeOwn(song, new Map()).value);
          const cut = notesWithin(song, (tick) => tick >= from && tick <= to);
          const [track] = cut.tracks;
          const changed = new Map(track ? [[1, { events: track.columns }]] : []);
          const left = said(writeOwn(cut, changed).value);
          const isIn = (tick: number) => tick >= from && tick <= to;
          const ons = whole.filter(({ type, tick }) => type === 'noteOn' && isIn(tick));
          expect(left.filter(({ type }) => type === 'noteOn')).toEqual(ons);
          expect(left.filter(({ type }) => type === 'noteOff').map(({ tick }) => tick - 1)).toEqual(
            ons.map(({ tick }) => tick),
          );
          const rest = (all: typeof whole) => all.filter(({ type }) => !type.startsWith('note'));
          expect(rest(left)).toEqual(rest(whole));
        },
      ),
    );
  });
});
