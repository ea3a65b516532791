import { readFileSync } from 'node:fs';
import tonejs from '@tonejs/midi';
import { describe, expect, it } from 'vitest';
import { demoRecording } from './tune.js';

describe('the demo recording', () => {
  const kept = new Uint8Array(readFileSync('maps/demo/last-boat.mid'));

  it('is what its score says', () => {
    expect(kept).toEqual(demoRecording());
  });

  it('has what a line in real life has, as an outside reader finds it', () => {
    const [horns] = new tonejs.Midi(kept).tracks.filter((track) => track.notes.length > 0);
    const ticks = horns?.notes.map((note) => note.ticks) ?? [];
    const lengths = horns?.notes.map((note) => note.duration) ?? [];
    expect(ticks.some((tick, index) => tick - (ticks[index - 1] ?? tick) > 3 * 1920)).toBe(true);
    expect(Math.min(...lengths)).toBeLessThan(0.1);
    expect(Math.max(...lengths)).toBeGreaterThan(2);
    expect(horns?.controlChanges[1]?.length).toBeGreaterThan(20);
  });
});
