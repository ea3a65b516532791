import { describe, expect, it } from 'vitest';
import { EventBuilder, isEndOfTrack, placesBefore, tickOf } from '../../../src/midi/events/index.js';

const builder = new EventBuilder();
builder.message(100, 0x90, 60, 90);
builder.message(100, 0x90, 64, 90);
builder.message(300, 0x80, 60, 64);
builder.meta(480, 0x2f, []);
const events = builder.events();

describe('places for what is put in', () => {
  it('are before the first event that is to stand behind it, on its tick or that of the event', () => {
    const { places, ticks } = placesBefore(
      events,
      [0, 100, 101, 500],
      (of, event, tick) => isEndOfTrack(of, event) || tickOf(of, event) >= tick,
    );
    expect(places).toEqual([0, 0, 2, 3]);
    // The end of the track holds back what would stand behind it.
    expect(ticks).toEqual([0, 100, 101, 480]);
  });

  it('are at the end where nothing is to stand behind it', () => {
    expect(placesBefore(events, [900], () => false)).toEqual({ places: [4], ticks: [900] });
  });
});
