import { describe, expect, it } from 'vitest';
import { compiled, two } from '../../support/compiled.js';
import { controllerAt } from '../../support/song.js';

describe('channels', () => {
  const map = two('  short: {switch: {channel: 3}}\n  long: {switch: {channel: 4}}');
  it("take the notes, and a copy of the part's controllers", () => {
    const events = compiled(
      map,
      [
        { tick: 0, end: 100, pitch: 60 },
        { tick: 480, end: 900, pitch: 62 },
      ],
      [controllerAt(50, 1, 99)],
    );
    const seen = events.flatMap(({ event }) =>
      'channel' in event ? [`${event.type} ${event.channel + 1}`] : [],
    );
    expect(seen).toEqual([
      'noteOn 3',
      'controller 1',
      'controller 3',
      'controller 4',
      'noteOff 3',
      'noteOn 4',
      'noteOff 4',
    ]);
  });
});
