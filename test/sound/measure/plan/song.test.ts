import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { type ProbedLibrary, probePlan, probeSong } from '../../../../src/sound/measure/index.js';
import { articulation, libraryOf, short } from '../library.js';

/** Events with their time in seconds at 120 quarters a minute, as midi-file reads them. */
function played(library: ProbedLibrary) {
  const plan = probePlan(library, { quick: true });
  const { header, tracks } = parseMidi(probeSong(plan, library));
  let tick = 0;
  const events = (tracks[0] ?? []).map((event) => {
    tick += event.deltaTime;
    return { at: tick / (2 * (header.ticksPerBeat ?? 0)), event };
  });
  return { plan, events };
}

const library = libraryOf([
  articulation('long', { switch: [{ kind: 'note', key: 24 }] }),
  short('muted', {
    switch: [
      { kind: 'note', key: 25 },
      { kind: 'controller', controller: 68, value: 127 },
      { kind: 'program', program: 59, bank: [1, 2] },
      { kind: 'channel', channel: 2 },
    ],
  }),
]);

describe('the probe as a MIDI file', () => {
  it('plays every note of the plan at its time, on the channel of its articulation', () => {
    const { plan, events } = played(library);
    for (const { notes, articulation: name } of plan.slots)
      for (const { at, held, pitch, velocity } of notes) {
        const channel = name === 'muted' ? 2 : 0;
        const on = events.find((one) => one.event.type === 'noteOn' && one.at === at);
        expect(on?.event).toMatchObject({ noteNumber: pitch, velocity, channel });
        const off = events.find((one) => one.event.type === 'noteOff' && one.at === at + held);
        expect(off?.event).toMatchObject({ noteNumber: pitch, channel });
      }
    expect(events.at(-1)?.at).toBeCloseTo(plan.seconds, 3);
  });

  it('sends controllers and switches in the half second before, in the order of the map', () => {
    const { plan, events } = played(library);
    for (const { at, notes, articulation: name, value } of plan.slots.filter(
      (slot) => slot.articulation === 'muted',
    )) {
      const sent = events
        .filter(
          (one) =>
            one.at >= at && one.at < (notes[0]?.at ?? 0) && 'channel' in one.event && one.event.channel === 2,
        )
        .map(({ event }) => {
          if (event.type === 'controller') return `cc${event.controllerType}=${event.value}`;
          if (event.type === 'programChange') return `program ${event.programNumber}`;
          return event.type === 'noteOn' ? `key ${event.noteNumber}` : 'up';
        });
      expect([name, ...sent.filter((text) => text !== 'up')]).toEqual([
        'muted',
        `cc1=${value}`,
        'cc10=64',
        'key 25',
        'cc68=127',
        'cc0=1',
        'cc32=2',
        'program 59',
      ]);
      expect(sent).toContain('up');
    }
  });

  it('holds momentary keys through the notes that need them', () => {
    const { plan, events } = played({ ...library, isMomentary: true });
    for (const { at, notes } of plan.slots.filter((slot) => slot.articulation === 'long')) {
      const key = events.filter(({ event }) => 'noteNumber' in event && event.noteNumber === 24);
      const last = notes.at(-1);
      const end = (last?.at ?? 0) + (last?.held ?? 0);
      expect(key.some((one) => one.event.type === 'noteOn' && one.at > at && one.at < at + 0.5)).toBe(true);
      expect(key.filter((one) => one.event.type === 'noteOff' && one.at > at && one.at <= end)).toEqual([]);
      expect(key.some((one) => one.event.type === 'noteOff' && one.at > end && one.at < end + 0.1)).toBe(
        true,
      );
    }
  });

  it('has no note that is struck twice, or never released', () => {
    const { events } = played(library);
    const open = new Set<string>();
    for (const { event } of events) {
      if (event.type !== 'noteOn' && event.type !== 'noteOff') continue;
      const key = `${event.channel} ${event.noteNumber}`;
      expect(open.has(key)).toBe(event.type === 'noteOff');
      if (event.type === 'noteOn') open.add(key);
      else open.delete(key);
    }
    expect(open.size).toBe(0);
  });
});
