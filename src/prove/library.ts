import type { Articulation, ArticulationMap } from '../map/index.js';
import { bankLsb, bankMsb, isSystemOn, type MidiEvent, resetControllers } from '../midi/index.js';
import { type Element, effectOf, effectsOf, keySlot } from './effects.js';

/** An articulation as the library knows it: what selects it. */
export interface Sound {
  readonly name: string;
  /** The channel (0–15) on which its notes arrive. */
  readonly channel: number;
  readonly elements: readonly Element[];
  /** Its switch keys. */
  readonly keys: ReadonlySet<number>;
}

/** A sample library under a map: which message writes to which slots, and what selects each sound. */
export interface Library {
  readonly map: ArticulationMap;
  readonly isMomentary: boolean;
  readonly sounds: ReadonlyMap<string, Sound>;
  /** All slots, in a fixed order. */
  readonly slots: readonly string[];
  /** The slots that a switch key, a controller or a program writes to. */
  readonly keySlots: ReadonlyMap<number, readonly string[]>;
  readonly controllerSlots: ReadonlyMap<number, readonly string[]>;
  readonly programSlots: readonly string[];
  /** The sounds that need all that a sound needs, and more. */
  covering(sound: Sound): readonly Sound[];
}

/**
 * The library of a part.
 *
 * - Keys of one group share a slot; those without group share the plain one. Each controller number has a slot, the
 *   program has one, and every group one of its own. A slot holds what was last put there.
 * - Momentary keys hold their slot only while they are down. A sound without a key in the plain group needs that no
 *   key of the plain group is down; other groups are independent, and say nothing about sounds that do not name them.
 * - A sound without a channel arrives on the part's own.
 */
export function libraryOf(map: ArticulationMap, ownChannel: number): Library {
  const isMomentary = map.switching.notes === 'momentary';
  const all = [...map.articulations.values()];
  const effects = effectsOf(map);
  const plainKeys = keySlot(undefined, isMomentary);
  const hasPlainKeys = isMomentary && effects.some(({ slot }) => slot === plainKeys);
  const sounds = new Map(
    all.map((articulation) => {
      const sound = soundOf(articulation, ownChannel, isMomentary);
      const isPlain = hasPlainKeys && !sound.elements.some(({ slot }) => slot === plainKeys);
      const silence: Element = { slot: plainKeys, content: undefined, by: 'silence' };
      return [sound.name, isPlain ? { ...sound, elements: [...sound.elements, silence] } : sound];
    }),
  );
  const keySlots = new Map<number, readonly string[]>();
  const controllerSlots = new Map<number, readonly string[]>();
  const programSlots = new Set<string>();
  for (const { slot, key, controller, isProgram } of effects) {
    if (slot === undefined) continue;
    if (key !== undefined) addTo(keySlots, key, slot);
    if (controller !== undefined) addTo(controllerSlots, controller, slot);
    if (isProgram) programSlots.add(slot);
  }
  return {
    map,
    isMomentary,
    sounds,
    slots: [
      ...new Set([...sounds.values()].flatMap(({ elements }) => elements.map(({ slot }) => slot))),
    ].sort(),
    keySlots,
    controllerSlots,
    programSlots: [...programSlots],
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
  };
}

function addTo(slots: Map<number, readonly string[]>, number: number, slot: string): void {
  const known = slots.get(number) ?? [];
  if (!known.includes(slot)) slots.set(number, [...known, slot]);
}

/** Whether an event writes to a slot, or, as a bank does, to what the next program writes. */
export function writesToSlot({ controllerSlots, programSlots }: Library, event: MidiEvent): boolean {
  if (isSystemOn(event)) return programSlots.length > 0 || controllerSlots.size > 0;
  if (event.type === 'programChange') return programSlots.length > 0;
  if (event.type !== 'controller') return false;
  const { controllerType: number } = event;
  const isBank = programSlots.length > 0 && (number === bankMsb || number === bankLsb);
  return isBank || controllerSlots.has(number) || (number === resetControllers && controllerSlots.size > 0);
}

/** Looks only at sounds that share the element which fewest have; each answer is kept. */
function coverings(sounds: ReadonlyMap<string, Sound>): (sound: Sound) => readonly Sound[] {
  const having = new Map<string, Sound[]>();
  const idsOf = ({ elements }: Sound) =>
    elements.flatMap(({ slot, content }) => (content === undefined ? [] : [`${slot}: ${content}`]));
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
