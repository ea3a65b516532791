import type { MidiEvent } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { type ChannelEdit, edited } from '../../src/cue/edit.js';
import { withoutEvents } from '../../src/midi/events/index.js';
import type { Track } from '../../src/midi/song.js';
import { columnsOf, eventsOf } from '../support/events.js';
import { controllerAt, songOf, trackOf } from '../support/song.js';

const notes = [
  { tick: 0, end: 100, pitch: 60 },
  { tick: 200, end: 300, pitch: 62 },
];
const [track] = songOf([
  trackOf(notes, [controllerAt(50, 1, 10), controllerAt(60, 1, 11, 3)], 'Line'),
]).tracks;
if (!track) throw new Error('there is a track');
const keep: ChannelEdit['change'] = (controller, value) => ({ controller, value });
const said = (of: Track) =>
  eventsOf(of).map(({ event }) =>
    event.type === 'controller' ? `${event.channel} cc${event.controllerType}=${event.value}` : event.type,
  );
const ticks = (of: Track) => eventsOf(of).map(({ tick }) => tick);

describe('editing the controllers of a track', () => {
  it('gives back the same track where nothing changes', () => {
    expect(edited(track, [])).toBe(track);
    expect(edited(track, [{ channel: 0, change: keep, added: [] }])).toBe(track);
  });

  it('puts new ones behind the name and before the notes of their tick, and none behind the end', () => {
    const added = [0, 200, 300, 999].map((tick) => ({ tick, controller: 7, value: tick % 128 }));
    const now = edited(track, [{ channel: 0, change: keep, added }]);
    expect(said(now)).toEqual([
      'trackName',
      '0 cc7=0',
      'noteOn',
      '0 cc1=10',
      '3 cc1=11',
      'noteOff',
      '0 cc7=72',
      'noteOn',
      '0 cc7=44',
      'noteOff',
      '0 cc7=103',
      'endOfTrack',
    ]);
    expect(ticks(now)).toEqual([0, 0, 0, 50, 60, 100, 200, 200, 300, 300, 300, 300]);
  });

  it('changes and takes out those of its channel only, and keeps every other tick', () => {
    const out = edited(track, [{ channel: 0, change: () => undefined, added: [] }]);
    expect(said(out)).not.toContain('0 cc1=10');
    expect(ticks(out)).toEqual([0, 0, 60, 100, 200, 300, 300]);
    const other = edited(track, [
      { channel: 3, change: (_, value) => ({ controller: 11, value: value + 1 }), added: [] },
    ]);
    expect(said(other).slice(2, 4)).toEqual(['0 cc1=10', '3 cc11=12']);
    expect(eventsOf(other)[2]).toEqual(eventsOf(track)[2]);
  });

  it('puts new ones where an event that is taken out stood, before a channel prefix, and keeps running status', () => {
    const columns = columnsOf([
      { deltaTime: 0, type: 'controller', channel: 0, controllerType: 1, value: 10 },
      { deltaTime: 0, type: 'text', meta: true, text: 'a' },
      { deltaTime: 0, type: 'channelPrefix', meta: true, channel: 0 },
      { deltaTime: 0, type: 'trackName', meta: true, text: 'b' },
      { deltaTime: 5, type: 'controller', channel: 0, controllerType: 2, value: 11 },
      { deltaTime: 5, type: 'controller', channel: 0, controllerType: 2, value: 12, running: true },
      { deltaTime: 0, type: 'endOfTrack', meta: true },
    ] as MidiEvent[]);
    const change: ChannelEdit['change'] = (controller, value) =>
      controller === 1 ? undefined : { controller, value: value + 1 };
    const out = edited({ ...track, columns }, [
      { channel: 0, change, added: [{ tick: 0, controller: 7, value: 1 }] },
    ]);
    expect(said(out).slice(0, 2)).toEqual(['0 cc7=1', 'text']);
    const prefixed = edited({ ...track, columns: withoutEvents(columns, (event) => event === 0) }, [
      { channel: 0, change, added: [{ tick: 0, controller: 7, value: 1 }] },
    ]);
    expect(said(prefixed).slice(0, 3)).toEqual(['text', '0 cc7=1', 'channelPrefix']);
    for (const now of [out, prefixed])
      expect(
        eventsOf(now)
          .slice(-3, -1)
          .map(({ event }) => event),
      ).toMatchObject([
        { controllerType: 2, value: 12 },
        { controllerType: 2, value: 13, running: true },
      ]);
  });
});
