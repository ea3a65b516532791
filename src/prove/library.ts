import type { Articulation, ArticulationMap } from '../map/index.js';
import {
  bankLsb,
  bankMsb,
  isSystemOnObject,
  type MidiEvent,
  resetControllers,
  silencing,
} from '../midi/index.js';
import { type Element, effectOf, effectsOf, keyAspect } from './effects.js';

/** An articulation as the library knows it: what selects it. */
export interface Sound {
  readonly name: string;
  /** The channel (0–15) on which its notes arrive. */
  readonly channel: number;
  readonly elements: readonly Element[];
  /** Its switch keys. */
  readonly keys: ReadonlySet<number>;
  /** The only key on which its notes arrive; undefined where they arrive on any. */
  readonly key: number | undefined;
  /** The velocities that pick it, lowest and highest; undefined where all do. */
  readonly velocities: readonly [least: number, most: number] | undefined;
}

/** A sample library under a map: which message writes to which aspects, and what selects each sound. */
export interface Library {
  readonly map: ArticulationMap;
  /** The switch keys that work only while they are down, and the aspects of such keys. */
  readonly heldKeys: ReadonlySet<number>;
  readonly heldAspects: ReadonlySet<string>;
  readonly sounds: ReadonlyMap<string, Sound>;
  /** All aspects, in a fixed order. */
  readonly aspects: readonly string[];
  /** The aspects that a switch key, a controller or a program writes to. */
  readonly keyAspects: ReadonlyMap<number, readonly string[]>;
  readonly controllerAspects: ReadonlyMap<number, readonly string[]>;
  readonly programAspects: readonly string[];
  /** The sounds that need all that a sound needs, and more. */
  covering(sound: Sound): readonly Sound[];
}

/**
 * The library of a part.
 *
 * - Keys of one named aspect share it; those that name none share the plain one. Each controller number has an aspect, the
 *   program has one, and every named aspect stands by itself. An aspect holds what was last put there.
 * - Keys that are held, as `switching.notes` or a message says, hold their aspect only while they are down. A sound without a key in the plain aspect needs that no
 *   key of the plain aspect is down; others are independent, and say nothing about sounds that do not name them.
 * - A sound with a key of its own is played on no other; one whose velocity picks it, by none outside its range.
 * - A sound without a channel arrives on the part's own.
 */
export function libraryOf(map: ArticulationMap, ownChannel: number): Library {
  const isMomentary = map.switching.notes === 'momentary';
  const all = [...map.articulations.values()];
  const effects = effectsOf(map);
  const plainKeys = keyAspect(undefined, true);
  const hasPlainKeys = effects.some(({ aspect }) => aspect === plainKeys);
  const sounds = new Map(
    all.map((articulation) => {
      const sound = soundOf(articulation, ownChannel, isMomentary);
      const isPlain = hasPlainKeys && !sound.elements.some(({ aspect }) => aspect === plainKeys);
      const silence: Element = { aspect: plainKeys, content: undefined, by: 'silence' };
      return [sound.name, isPlain ? { ...sound, elements: [...sound.elements, silence] } : sound];
    }),
  );
  const keyAspects = new Map<number, readonly string[]>();
  const controllerAspects = new Map<number, readonly string[]>();
  const programAspects = new Set<string>();
  const heldKeys = new Set<number>();
  const heldAspects = new Set<string>();
  for (const { aspect, key, isHeld, controller, isProgram } of effects) {
    if (aspect === undefined) continue;
    if (isHeld && key !== undefined) heldKeys.add(key);
    if (isHeld) heldAspects.add(aspect);
    if (key !== undefined) addTo(keyAspects, key, aspect);
    if (controller !== undefined) addTo(controllerAspects, controller, aspect);
    if (isProgram) programAspects.add(aspect);
  }
  return {
    map,
    heldKeys,
    heldAspects,
    sounds,
    aspects: [
      ...new Set([...sounds.values()].flatMap(({ elements }) => elements.map(({ aspect }) => aspect))),
    ].sort(),
    keyAspects,
    controllerAspects,
    programAspects: [...programAspects],
    covering: coverings(sounds),
  };
}

function soundOf(articulation: Articulation, ownChannel: number, isMomentary: boolean): Sound {
  const effects = articulation.switch.map((message) => effectOf(message, isMomentary));
  return {
    name: articulation.name,
    channel: effects.findLast(({ channel }) => channel !== undefined)?.channel ?? ownChannel,
    elements: effects.flatMap(({ elements }) => elements),
    keys: new Set(effects.flatMap(({ key }) => key ?? [])),
    key: articulation.key,
    velocities: articulation.velocity?.into,
  };
}

function addTo(aspects: Map<number, readonly string[]>, number: number, aspect: string): void {
  const known = aspects.get(number) ?? [];
  if (!known.includes(aspect)) aspects.set(number, [...known, aspect]);
}

/** Whether an event writes to an aspect, or, as a bank does, to what the next program writes. */
export function writesToAspect(library: Library, event: MidiEvent): boolean {
  const { controllerAspects, programAspects, heldKeys } = library;
  if (isSystemOnObject(event))
    return programAspects.length > 0 || controllerAspects.size > 0 || heldKeys.size > 0;
  if (event.type === 'programChange') return programAspects.length > 0;
  if (event.type !== 'controller') return false;
  const { controllerType: number } = event;
  if (silencing.has(number) && heldKeys.size > 0) return true;
  const isBank = programAspects.length > 0 && (number === bankMsb || number === bankLsb);
  return (
    isBank || controllerAspects.has(number) || (number === resetControllers && controllerAspects.size > 0)
  );
}

/** Looks only at sounds that share the element which fewest have; each answer is kept. */
function coverings(sounds: ReadonlyMap<string, Sound>): (sound: Sound) => readonly Sound[] {
  const having = new Map<string, Sound[]>();
  const idsOf = ({ elements, key }: Sound) => [
    ...elements.flatMap(({ aspect, content }) => (content === undefined ? [] : [`${aspect}: ${content}`])),
    ...(key === undefined ? [] : [`arrives on ${key}`]),
  ];
  for (const sound of sounds.values())
    for (const id of idsOf(sound)) {
      const others = having.get(id);
      if (others) others.push(sound);
      else having.set(id, [sound]);
    }
  const known = new Map<string, readonly Sound[]>();
  return (sound) => {
    const before = known.get(sound.name);
    if (before) return before;
    const ids = idsOf(sound);
    const candidates = ids.reduce<readonly Sound[]>(
      (fewest, id) => {
        const sharing = having.get(id) ?? [];
        return sharing.length < fewest.length ? sharing : fewest;
      },
      [...sounds.values()],
    );
    const found = candidates.filter((other) => {
      const its = new Set(idsOf(other));
      return (
        other.channel === sound.channel && its.size > new Set(ids).size && ids.every((id) => its.has(id))
      );
    });
    known.set(sound.name, found);
    return found;
  };
}
