import { describe, expect, it } from 'vitest';
import { noteChannels } from '../../../src/prove/against/channels.js';
import { stageOf } from '../../../src/prove/part.js';
import { fileOf, kindsOf, library, meantNotes, note, off, on } from '../events.js';

const map = library(['near: {}', 'far: {switch: {channel: 3}}', 'other: {switch: {channel: 9}}']);

describe('noteChannels', () => {
  it('takes the channels of each part together', () => {
    const stages = [0, 4].flatMap((channel) => {
      const meant = meantNotes([[0, 60, channel === 0 ? 'far' : 'other']]);
      return stageOf(fileOf([]), { part: { track: 1, trackName: '', channel }, map, meant }) ?? [];
    });
    const together = noteChannels(stages);
    expect([0, 1, 2, 4, 8].map(together)).toEqual([0, 1, 0, 4, 4]);
    expect([0, 1, 2].map(noteChannels([]))).toEqual([0, 1, 2]);
  });
});

describe('a release', () => {
  const input = [...note(500, 900, 60), ...note(1000, 1400, 60)];
  const meant = [
    [500, 60, 'near'],
    [1000, 60, 'far'],
  ] as const;
  const near = note(500, 900, 60);

  it('goes where its note went', () => {
    expect(kindsOf({ map, meant, input, output: [...near, ...note(1000, 1400, 60, 2)] })).toEqual([]);
    expect(kindsOf({ map, meant, input, output: [...near, on(1000, 60, 80, 2), off(1400, 60)] })).toEqual([
      'changed-event',
    ]);
  });

  it('stays where it is without a note', () => {
    const stray = [...input, off(1500, 60)];
    const routed = [...near, ...note(1000, 1400, 60, 2)];
    expect(kindsOf({ map, meant, input: stray, output: [...routed, off(1500, 60)] })).toEqual([]);
    expect(kindsOf({ map, meant, input: stray, output: [...routed, off(1500, 60, 2)] })).toEqual([
      'changed-event',
    ]);
  });
});
