import type { Articulation, ArticulationMap, SwitchMessage } from '../map/index.js';
import { type Differences, differencesOf } from './differences.js';
import { areVersions, type Becomes, becomesIn } from './matching.js';

/** An articulation that both maps have, but select otherwise. */
export interface Reswitched {
  readonly articulation: string;
  readonly from: readonly SwitchMessage[];
  readonly to: readonly SwitchMessage[];
  /** Only where its notes go out otherwise too: on a key of its own, with velocities in a range. */
  readonly sent?: { readonly from: SentAs; readonly to: SentAs };
}

/** How the notes of an articulation go out, switches aside. */
export type SentAs = Pick<Articulation, 'key' | 'velocity'>;

/** What two maps have in articulations, whatever music asks for, each in the order of its map. */
export interface ComparedArticulations extends Differences {
  /** What the second library has nothing for. */
  readonly onlyA: readonly string[];
  /** What stands for nothing of the first. */
  readonly onlyB: readonly string[];
  /** What each articulation becomes; only where the maps are of two libraries, so that names say nothing. */
  readonly becomes?: readonly Becomes[];
  /** Of one library only: another one is switched otherwise in any case. */
  readonly reswitched: readonly Reswitched[];
  /** Only where the libraries are sent other notes: semitones over what is written. */
  readonly transpose?: { readonly from: number; readonly to: number };
  /** Only where the sustain pedal counts otherwise. */
  readonly pedal?: { readonly from: ArticulationMap['pedal']; readonly to: ArticulationMap['pedal'] };
}

/**
 * Compares the articulations of two maps: what only one has, what is switched differently, or by what the other library
 * means the same; and what range, dynamics and delays differ in.
 */
export function compareArticulations(a: ArticulationMap, b: ArticulationMap): ComparedArticulations {
  const becomes = becomesIn(a, b);
  const taken = new Set(becomes.map(({ to }) => to));
  const isOne = areVersions(a, b);
  return {
    onlyA: becomes.flatMap(({ from, to }) => (to === null ? [from] : [])),
    onlyB: [...b.articulations.keys()].filter((name) => !taken.has(name)),
    ...(isOne ? {} : { becomes }),
    reswitched: isOne ? reswitched(a, b) : [],
    ...(a.transpose === b.transpose ? {} : { transpose: { from: a.transpose, to: b.transpose } }),
    ...(a.pedal === b.pedal ? {} : { pedal: { from: a.pedal, to: b.pedal } }),
    ...differencesOf(a, b, becomes),
  };
}

function reswitched(a: ArticulationMap, b: ArticulationMap): readonly Reswitched[] {
  return [...b.articulations.values()].flatMap((after): Reswitched[] => {
    const before = a.articulations.get(after.name);
    if (!before || (isSwitchedAlike(before, after) && isSentAlike(before, after))) return [];
    const sent = isSentAlike(before, after) ? {} : { sent: { from: sentAs(before), to: sentAs(after) } };
    return [{ articulation: after.name, from: before.switch, to: after.switch, ...sent }];
  });
}

/** The same messages in the same order: a library may take another order otherwise. */
function isSwitchedAlike(a: Articulation, b: Articulation): boolean {
  return JSON.stringify(a.switch.map(fields)) === JSON.stringify(b.switch.map(fields));
}

function isSentAlike(a: Articulation, b: Articulation): boolean {
  return a.key === b.key && String(a.velocity?.into) === String(b.velocity?.into);
}

function sentAs({ key, velocity }: Articulation): SentAs {
  return { ...(key === undefined ? {} : { key }), ...(velocity ? { velocity } : {}) };
}

/** A message's fields by name, so that their order in the object does not count. */
function fields(message: SwitchMessage): readonly (readonly [string, unknown])[] {
  return Object.entries(message).sort(([one], [other]) => (one < other ? -1 : 1));
}
