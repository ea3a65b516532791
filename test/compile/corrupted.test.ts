import { readFileSync } from 'node:fs';
import { type MidiEvent, parseMidi, writeMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { proofOf } from '../../src/api/proof.js';
import { compile, compileParts } from '../../src/compile/index.js';
import { readMidi } from '../../src/midi/read/index.js';
import { readWhole } from '../support/map.js';
import { eventOf, putIn } from '../support/message.js';

/** An event with its absolute tick; inserted ones are those that the recording does not have. */
interface Placed {
  readonly tick: number;
  readonly event: MidiEvent;
  readonly isSwitch: boolean;
}

type Corruption = (events: readonly Placed[]) => readonly Placed[] | undefined;

const recording = new Uint8Array(readFileSync('maps/demo/last-boat.mid'));
const names = [
  'saltmarsh-horns',
  'lantern-street-strings',
  'tidewater-oboe',
  'general-midi-strings',
  'gull-chapel-choir',
  'breakwater-trombones',
];

function replaced(
  events: readonly Placed[],
  at: number,
  ...by: readonly Placed[]
): readonly Placed[] | undefined {
  return at < 0 ? undefined : [...events.slice(0, at), ...by, ...events.slice(at + 1)];
}

const isNoteOn = ({ event }: Placed) => event.type === 'noteOn';
const isMelody = (placed: Placed) => !placed.isSwitch && isNoteOn(placed);
const isPress = ({ event, isSwitch }: Placed) => isSwitch && event.type !== 'noteOff';

/** Ten ways (and one more) in which an output can go wrong. */
const corruptions: Readonly<Record<string, Corruption>> = {
  'a switch is dropped': (events) => replaced(events, events.findIndex(isPress)),
  'a switch stands behind its note': (events) => {
    const at = events.findIndex(isPress);
    const note = events.findIndex((placed, index) => index > at && isMelody(placed));
    const press = events[at];
    const on = events[note];
    if (!press || !on) return undefined;
    return [
      ...events.slice(0, at),
      ...events.slice(at + 1, note + 1),
      { ...press, tick: on.tick },
      ...events.slice(note + 1),
    ];
  },
  'two switches change places': (events) => {
    const first = events.findIndex(isPress);
    const { event: same, tick: when } = events[first] ?? {};
    const second = events.findIndex(
      (placed, index) =>
        index > first && isPress(placed) && placed.tick !== when && differs(placed.event, same),
    );
    const [a, b] = [events[first], events[second]];
    if (!a || !b) return undefined;
    return events.map((placed, index) =>
      index === first ? { ...a, event: b.event } : index === second ? { ...b, event: a.event } : placed,
    );
  },
  'a switch key is held too long': (events) => {
    const at = events.findIndex(({ event, isSwitch }) => isSwitch && event.type === 'noteOff');
    const off = events[at];
    const end = events.at(-1)?.tick ?? 0;
    if (!off) return undefined;
    const rest = events.filter((_, index) => index !== at);
    return [...rest.slice(0, -1), { ...off, tick: end }, ...rest.slice(-1)];
  },
  'a switch key is left hanging': (events) =>
    replaced(
      events,
      events.findIndex(({ event, isSwitch }) => isSwitch && event.type === 'noteOff'),
    ),
  'a switch says something else': (events) => {
    const at = events.findIndex(isPress);
    const press = events[at];
    return press && replaced(events, at, { ...press, event: altered(press.event) });
  },
  'a switch is sent again, too early, for another sound': (events) => {
    const presses = events.filter(isPress);
    const other = presses.find(({ event }) => differs(event, presses[0]?.event));
    const notes = events.flatMap((placed, index) => (isMelody(placed) ? [index] : []));
    const at = notes[1];
    const before = at === undefined ? undefined : events[at];
    if (!other || at === undefined || !before) return undefined;
    return [...events.slice(0, at), { ...other, tick: before.tick }, ...events.slice(at)];
  },
  'a velocity changes': (events) => {
    const at = events.findIndex(isMelody);
    const note = events[at];
    if (note?.event.type !== 'noteOn') return undefined;
    return replaced(events, at, { ...note, event: { ...note.event, velocity: note.event.velocity - 1 } });
  },
  'a controller of the recording is dropped': (events) =>
    replaced(
      events,
      events.findIndex(({ event, isSwitch }) => !isSwitch && event.type === 'controller'),
    ),
  'a note is dropped': (events) => replaced(events, events.findIndex(isMelody)),
  'a note is moved': (events) => {
    const at = events.findIndex((placed) => isMelody(placed) && placed.tick > 0);
    const note = events[at];
    return note && replaced(events, at, { ...note, tick: note.tick - 1 });
  },
  'a text loses a byte': (events) => {
    const at = events.findIndex(({ event }) => event.type === 'text');
    const text = events[at];
    if (text?.event.type !== 'text') return undefined;
    return replaced(events, at, { ...text, event: { ...text.event, text: text.event.text.slice(1) } });
  },
};

function differs(a: MidiEvent, b: MidiEvent | undefined): boolean {
  const plain = ({ deltaTime: _, ...rest }: MidiEvent) => JSON.stringify(rest);
  return b !== undefined && a.type === b.type && plain(a) !== plain(b);
}

function altered(event: MidiEvent): MidiEvent {
  if (event.type === 'noteOn') return { ...event, noteNumber: event.noteNumber + 1 };
  if (event.type === 'controller') return { ...event, value: (event.value + 1) % 128 };
  return event.type === 'programChange' ? { ...event, programNumber: event.programNumber + 1 } : event;
}

function compiled(name: string) {
  const { value: song } = readMidi(recording, 'last-boat.mid');
  const map = readWhole(readFileSync(`maps/${name}.yaml`, 'utf8'));
  const job = { part: { track: 2, trackName: 'Horns', channel: 0 }, map };
  const result = song && compile(song, [job]).value;
  const [part] = result?.parts ?? [];
  if (!song || !result || !part) throw new Error('nothing compiled');
  const counts = new Map<string, number>();
  for (const { tick, message } of putIn(part.switched.insertions)) {
    const key = textOf(tick, eventOf(message));
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  let tick = 0;
  const events = (parseMidi(result.bytes).tracks[1] ?? []).map((event): Placed => {
    tick += event.deltaTime;
    const key = textOf(tick, event);
    const left = counts.get(key) ?? 0;
    counts.set(key, left - 1);
    return { tick, event, isSwitch: left > 0 };
  });
  return { song, job, events };
}

function textOf(tick: number, event: MidiEvent): string {
  const { deltaTime: _, running: __, ...rest } = event as MidiEvent & { running?: boolean };
  return `${tick} ${JSON.stringify(Object.entries(rest).sort())}`;
}

function violations(name: string, corrupt: Corruption): readonly string[] | undefined {
  const { song, job, events } = compiled(name);
  const changed = corrupt(events);
  if (!changed) return undefined;
  const sorted = [...changed].sort((a, b) => a.tick - b.tick);
  let before = 0;
  const track = sorted.map(({ tick, event }) => {
    const deltaTime = tick - before;
    before = tick;
    return { ...event, deltaTime };
  });
  const data = parseMidi(recording);
  const bytes = Uint8Array.from(writeMidi({ header: data.header, tracks: [data.tracks[0] ?? [], track] }));
  const { value: output } = readMidi(bytes, 'corrupt.mid');
  if (!output) throw new Error('cannot be read');
  return proofOf(output, song, compileParts(song, [job]), true).violations.map(({ kind }) => kind);
}

describe('the model of the library', () => {
  for (const name of names)
    it(`finds nothing wrong in the demo with ${name}`, () => {
      expect(violations(name, (events) => events)).toEqual([]);
    });

  for (const [what, corrupt] of Object.entries(corruptions))
    it(`notices when ${what}`, () => {
      const found = names.flatMap((name) => {
        const kinds = violations(name, corrupt);
        return kinds ? [[name, kinds.length > 0]] : [];
      });
      expect(found.length).toBeGreaterThan(0);
      expect(found).toEqual(found.map(([name]) => [name, true]));
    });
});
