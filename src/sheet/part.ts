import { articulationOf, type CompiledPart, decisionsOf, placesOf, reason } from '../compile/index.js';
import { lengthsOf } from '../learn/index.js';
import { isNoteOn, noteTick, onOf, secondData, type Track } from '../midi/index.js';
import { lateness } from '../sound/index.js';
import { curveOf } from './curve.js';
import { sentBy } from './sent.js';
import type { SheetJob } from './task.js';
import type { SheetLengths, SheetNote, SheetPart, SheetSwitch } from './types.js';

/** A layer of a part, compiled. */
export interface Layered {
  readonly name: string;
  readonly compiled: CompiledPart;
  /** Which notes of the part it doubles: indices. */
  readonly doubles: ReadonlySet<number>;
}

/**
 * A part with its layers.
 *
 * @param track its track with the notes where they stand now
 * @param index of the part in the sheet, from 0
 */
export function sheetPart(
  { name, compiled }: SheetJob,
  layers: readonly Layered[],
  track: Track | undefined,
  index: number,
): SheetPart {
  const { part, map } = compiled;
  const curve = track && curveOf(track, part.channel, map);
  return {
    name,
    track: part.track,
    channel: part.channel,
    library: map.library,
    instrument: map.instrument,
    family: map.family,
    mapFile: map.file,
    range: map.range,
    middleC: map.middleC,
    notes: notesOf(compiled, layers, track, index),
    switches: [
      ...switchesOf(compiled),
      ...layers.flatMap((layer) => switchesOf(layer.compiled).map((one) => ({ ...one, layer: layer.name }))),
    ].sort((a, b) => a.tick - b.tick),
    ...(curve ? { curve } : {}),
    layers: layers.map((layer) => ({
      name: layer.name,
      library: layer.compiled.map.library,
      notes: layer.compiled.decided.length,
    })),
    lengths: lengthsOfPart(compiled),
  };
}

function lengthsOfPart({ line, map }: CompiledPart): readonly SheetLengths[] {
  const { falls, bounds } = lengthsOf(line, map);
  const bounded = falls.filter(({ measure }) => bounds.some(({ bound }) => bound.measure === measure));
  return (bounded.length > 0 ? bounded : falls.slice(0, 1))
    .filter(({ notes }) => notes > 0)
    .map(({ measure, bars, breaks }) => ({
      measure,
      bars,
      bounds: bounds
        .filter(({ bound }) => bound.measure === measure)
        .map(({ bound: { value, text }, cutsHeap }) => ({ value, text, cutsHeap })),
      breaks: breaks.map(({ bound }) => bound.text),
    }));
}

/** A note's name in the sheet, by the indices of its part and of its decision. */
export function noteId(part: number, index: number): string {
  return `n${part}-${index}`;
}

function notesOf(
  compiled: CompiledPart,
  layers: readonly Layered[],
  track: Track | undefined,
  part: number,
): readonly SheetNote[] {
  const { line, map, decided, retimed, switched } = compiled;
  const places = placesOf(line);
  const late = lateness(compiled);
  return Array.from(decisionsOf(decided), (decision, index) => {
    const { tick, endTick, pitch, onset } = decision.note;
    const [now, onIndex] = [noteTick(retimed.decided, index), onOf(retimed.decided, index)];
    const isThere = track !== undefined && isNoteOn(track.columns, onIndex);
    const velocity = isThere ? secondData(track.columns, onIndex) : decision.note.velocity;
    return {
      id: noteId(part, index),
      tick,
      endTick,
      place: places(onset),
      pitch,
      velocity,
      isStruck: map.articulations.get(decision.articulation)?.loudness === 'velocity',
      articulation: decision.articulation,
      why: reason(map, decision, line),
      layers: layers.flatMap(({ name, doubles }) => (doubles.has(index) ? [name] : [])),
      switchTick: switched.switchTickOf(index),
      movedMs: now === tick ? 0 : line.clock.ms(now) - line.clock.ms(tick),
      heardMs: line.clock.ms(now) + Math.max(0, late(index)),
    };
  });
}

/** The switches of a part; one that notes of a chord share is there once. */
function switchesOf({ line, map, decided, retimed, switched }: CompiledPart): readonly SheetSwitch[] {
  const found = new Map<string, SheetSwitch>();
  for (let row = 0; row < decided.length; row++) {
    const tick = switched.switchTickOf(row);
    const articulation = articulationOf(decided, row);
    const key = `${tick} ${articulation}`;
    if (tick === null || found.has(key)) continue;
    const onsetTick = noteTick(retimed.decided, row);
    const leadMs = line.clock.ms(onsetTick) - line.clock.ms(tick);
    found.set(key, { tick, onsetTick, leadMs, articulation, sent: sentBy(map, articulation) });
  }
  return [...found.values()];
}
