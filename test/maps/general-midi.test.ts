import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readWhole } from '../support/map.js';

/** General MIDI level 1 sound set (from memory): numbers on the wire, one less than those printed. */
const soundSet: Readonly<Record<string, number>> = {
  sustained: 48, // string ensemble 1
  tremolo: 44,
  pizzicato: 45,
  solo: 56, // trumpet
  muted: 59, // muted trumpet
  section: 61, // brass section
  oboe: 68,
  bassoon: 70,
  clarinet: 71,
  piccolo: 72,
  flute: 73,
};

describe('the General MIDI maps', () => {
  for (const name of ['strings', 'brass', 'woodwinds'])
    it(`${name}: every program is that of the sound set`, () => {
      const map = readWhole(readFileSync(`maps/general-midi-${name}.yaml`, 'utf8'));
      for (const { name: articulation, switch: messages } of map.articulations.values())
        expect(messages).toEqual([{ kind: 'program', program: soundSet[articulation] }]);
      expect(map.articulations.size).toBeGreaterThan(2);
    });
});

describe('the maps of this project', () => {
  const read = (name: string) => readWhole(readFileSync(`maps/${name}.yaml`, 'utf8'));
  const kinds = (name: string) =>
    new Set(
      [...read(name).articulations.values()].flatMap((articulation) =>
        articulation.switch.map((message) => message.kind),
      ),
    );

  it('show every method of switching', () => {
    expect(kinds('saltmarsh-horns')).toEqual(new Set(['note']));
    expect(read('lantern-street-strings').switching.notes).toBe('momentary');
    expect(kinds('tidewater-oboe')).toEqual(new Set(['controller']));
    expect(kinds('gull-chapel-choir')).toEqual(new Set(['channel']));
    expect(kinds('general-midi-strings')).toEqual(new Set(['program']));
    const aspects = [...read('breakwater-trombones').articulations.values()].flatMap((articulation) =>
      articulation.switch.flatMap((message) =>
        'aspect' in message && message.aspect !== undefined ? [message.aspect] : [],
      ),
    );
    expect(new Set(aspects)).toEqual(new Set(['mute']));
  });

  it('switch with controllers that MIDI 1.0 leaves undefined (20 to 31), never bank select or channel mode', () => {
    for (const { switch: messages } of read('tidewater-oboe').articulations.values())
      for (const message of messages)
        if (message.kind === 'controller') expect([20, 21]).toContain(message.controller);
  });
});
