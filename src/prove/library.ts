import type { Articulation, ArticulationMap } from '../map/index.js';
import {
  bankLsb,
  bankMsb,
  type Events,
  firstData,
  isSystemOn,
  kindOf,
  resetControllers,
  silencing,
} from '../midi/index.js';
import { type Content, empty } from './content.js';
import { bankAspect, type Effect, type Element, effectOf, effectsOf, keyAspect } from './effects.js';

/** One thing that a sound needs: what has to stand in an aspect, which is an index of the library's. */
export interface Need {
  readonly aspect: number;
  readonly content: Content;
  readonly by: Element['by'];
}

/** An articulation as the library knows it: what selects it. */
export interface Sound {
  readonly name: string;
  /** The channel (0–15) on which its notes arrive. */
  readonly channel: number;
  readonly needs: readonly Need[];
  /** The aspects of those that are keys, in order. */
  readonly keyedAspects: readonly number[];
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
  readonly heldAspects: ReadonlySet<number>;
  readonly sounds: ReadonlyMap<string, Sound>;
  /** The names of all aspects that sounds need; elsewhere an aspect is its index here. */
  readonly aspects: readonly string[];
  /** The aspects that a switch key, a controller or a program writes to; with a program's, that of its bank, if needed. */
  readonly keyAspects: ReadonlyMap<number, readonly number[]>;
  readonly controllerAspects: ReadonlyMap<number, readonly number[]>;
  readonly programAspects: readonly ProgramAspect[];
  /** The sounds that need all that a sound needs, and more. */
  covering(sound: Sound): readonly Sound[];
}

interface ProgramAspect {
  readonly program: number;
  readonly bank: number | undefined;
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
  const effects = effectsOf(map);
  const plainKeys = keyAspect(undefined, true);
  const isSilent = effects.some(({ aspect }) => aspect === plainKeys);
  const silence: Element = { aspect: plainKeys, content: empty, by: 'silence' };
  const elements = new Map(
    [...map.articulations.values()].map((articulation) => {
      const own = articulation.switch.flatMap((message) => effectOf(message, isMomentary).elements);
      const isPlain = isSilent && !own.some(({ aspect }) => aspect === plainKeys);
      return [articulation, isPlain ? [...own, silence] : own];
    }),
  );
  const aspects = [...new Set([...elements.values()].flatMap((all) => all.map(({ aspect }) => aspect)))];
  const numbers = new Map(aspects.map((aspect, index) => [aspect, index]));
  const needsOf = (all: readonly Element[]) =>
    all.map(({ aspect, content, by }): Need => ({ aspect: numbers.get(aspect) ?? -1, content, by }));
  const sounds = new Map(
    [...elements].map(([articulation, all]) => [
      articulation.name,
      soundOf(articulation, needsOf(all), ownChannel, isMomentary),
    ]),
  );
  return { map, sounds, aspects, ...writersOf(effects, numbers), covering: coverings(sounds) };
}

/** What writes to which aspects. */
function writersOf(
  effects: readonly Effect[],
  numbers: ReadonlyMap<string, number>,
): Omit<Library, 'map' | 'sounds' | 'aspects' | 'covering'> {
  const keyAspects = new Map<number, readonly number[]>();
  const controllerAspects = new Map<number, readonly number[]>();
  const programAspects = new Map<number, ProgramAspect>();
  const heldKeys = new Set<number>();
  const heldAspects = new Set<number>();
  for (const { aspect: name = '', key, isHeld, controller, isProgram } of effects) {
    const aspect = numbers.get(name);
    if (aspect === undefined) continue;
    if (isHeld && key !== undefined) heldKeys.add(key);
    if (isHeld) heldAspects.add(aspect);
    if (key !== undefined) addTo(keyAspects, key, aspect);
    if (controller !== undefined) addTo(controllerAspects, controller, aspect);
    if (isProgram) programAspects.set(aspect, { program: aspect, bank: numbers.get(bankAspect(name)) });
  }
  const all = [...programAspects.values()];
  return { keyAspects, controllerAspects, programAspects: all, heldKeys, heldAspects };
}

function soundOf(
  articulation: Articulation,
  needs: readonly Need[],
  ownChannel: number,
  isMomentary: boolean,
): Sound {
  const effects = articulation.switch.map((message) => effectOf(message, isMomentary));
  return {
    name: articulation.name,
    channel: effects.findLast(({ channel }) => channel !== undefined)?.channel ?? ownChannel,
    needs,
    keyedAspects: needs.flatMap(({ aspect, by }) => (by === 'key' ? [aspect] : [])),
    keys: new Set(effects.flatMap(({ key }) => key ?? [])),
    key: articulation.key,
    velocities: articulation.velocity?.into,
  };
}

function addTo(aspects: Map<number, readonly number[]>, number: number, aspect: number): void {
  const known = aspects.get(number) ?? [];
  if (!known.includes(aspect)) aspects.set(number, [...known, aspect]);
}

/** Whether an event writes to an aspect, or, as a bank does, to what the next program writes. */
export function writesToAspect(library: Library, events: Events, event: number): boolean {
  const { controllerAspects, programAspects, heldKeys } = library;
  const kind = kindOf(events, event);
  if (kind === 0xc0) return programAspects.length > 0;
  if (kind === 0xb0) return isWriting(library, firstData(events, event));
  if (!isSystemOn(events, event)) return false;
  return programAspects.length > 0 || controllerAspects.size > 0 || heldKeys.size > 0;
}

function isWriting({ controllerAspects, programAspects, heldKeys }: Library, controller: number): boolean {
  if (silencing.has(controller) && heldKeys.size > 0) return true;
  const isBank = programAspects.length > 0 && (controller === bankMsb || controller === bankLsb);
  const isReset = controller === resetControllers && controllerAspects.size > 0;
  return isBank || isReset || controllerAspects.has(controller);
}

/** Looks only at sounds that share the element which fewest have; each answer is kept. */
function coverings(sounds: ReadonlyMap<string, Sound>): (sound: Sound) => readonly Sound[] {
  const having = new Map<string, Sound[]>();
  const idsOf = ({ needs, key }: Sound) => [
    ...needs.flatMap(({ aspect, content }) => (content === empty ? [] : [`${aspect}: ${content}`])),
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
