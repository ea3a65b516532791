import { describe, expect, it } from 'vitest';
import { withPreroll } from '../../../src/compile/retime/shift.js';
import { eventsOf } from '../../support/events.js';
import { controllerAt, songOf, type Timed, tempoAt, textAt, trackOf } from '../../support/song.js';

const signature: Timed = {
  tick: 0,
  event: {
    type: 'timeSignature',
    meta: true,
    numerator: 3,
    denominator: 4,
    metronome: 24,
    thirtyseconds: 8,
  } as Timed['event'],
};
const others = [
  signature,
  tempoAt(0, 90),
  tempoAt(960, 60),
  textAt(0, 'start', 'marker'),
  controllerAt(0, 7, 99),
  controllerAt(5, 1, 4),
];
const song = songOf([trackOf([{ tick: 0, end: 100, pitch: 60 }], others, 'Line')]);

describe('preroll', () => {
  it('moves everything by whole bars, tempo and markers included; what sets up stays at the beginning', () => {
    const [track] = withPreroll(song, 2)?.tracks ?? [];
    const at = eventsOf(track).map(({ tick, event }) => `${tick} ${event.type}`);
    // Two bars of 3/4 at ppq 480 are 2880 ticks.
    expect(at).toEqual([
      '0 trackName',
      '0 timeSignature',
      '0 setTempo',
      '0 controller',
      '2880 marker',
      '2880 noteOn',
      '2885 controller',
      '2980 noteOff',
      '3840 setTempo',
      '3840 endOfTrack',
    ]);
  });

  it('is not possible without bars', () => {
    expect(
      withPreroll(songOf([trackOf([])], { smpte: { framesPerSecond: 25, ticksPerFrame: 40 } }), 1),
    ).toBeUndefined();
  });
});
