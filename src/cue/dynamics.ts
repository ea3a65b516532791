import type { Job } from '../compile/index.js';
import { type Diagnostic, diagnostic, type Place } from '../diagnostics/index.js';
import {
  type Curve,
  controllerPoints,
  exactRescaler,
  identityLevels,
  levelScale,
  rescaler,
  velocityOfLevel,
} from '../dynamics/index.js';
import type { ArticulationMap } from '../map/index.js';
import type { VoiceDynamics } from './voice.js';

type Controlled = NonNullable<ArticulationMap['dynamics']>;

/** no-levels: dynamics for notes that are loud by a controller, of which the map does not say what it sounds like. */
export function missingLevels(name: string, place: Place, map: ArticulationMap): readonly Diagnostic[] {
  if (map.dynamics || !isControlled(map)) return [];
  return [
    diagnostic(
      'no-levels',
      place,
      `the dynamics of ${name} need to know what the values of its library's controller sound like`,
      'give dynamics, with controller and levels, in its map',
    ),
  ];
}

/** Recorded dynamics, carried over to a library: each mark sounds alike. */
export function carried(recorded: Controlled, library: Controlled): VoiceDynamics {
  return {
    recorded: recorded.controller,
    controller: library.controller,
    scale: exactRescaler(library.levels, recorded.levels),
    added: [],
  };
}

/**
 * The velocities of notes of a library in which none is loud by a controller: what the recorded controller stood at when
 * they were struck. Undefined for a library that has the controller itself.
 */
export function velocitiesKept({ controller, levels }: Controlled, map: ArticulationMap): Job['velocityOf'] {
  if (isControlled(map)) return undefined;
  const scale = rescaler(identityLevels, levels);
  return ({ note }) => {
    const value = note.controllers.get(controller);
    return value === undefined ? undefined : Math.max(1, Math.min(127, scale(value)));
  };
}

/**
 * A curve of loudness, written for a library in place of what was recorded; undefined where none of its articulations is
 * loud by the controller.
 *
 * @param earliest the tick of the first switch: the first value is there by then
 */
export function drawn(
  curve: Curve,
  map: ArticulationMap,
  recorded: Controlled | undefined,
  earliest: number,
): VoiceDynamics | undefined {
  const { dynamics: library } = map;
  if (!library || !isControlled(map)) return undefined;
  const scale = levelScale(library.levels);
  const points = controllerPoints({ knots: curve.knots, valueAt: (tick) => scale(curve.valueAt(tick)) });
  return {
    recorded: recorded?.controller ?? library.controller,
    controller: library.controller,
    added: points.map(({ tick, value }, index) => ({
      tick: index === 0 ? Math.min(tick, earliest) : tick,
      controller: library.controller,
      value,
    })),
  };
}

/** The velocities of notes whose articulation is loud by velocity, on a curve of loudness. */
export function velocitiesOn(
  curve: Curve,
  map: ArticulationMap,
  scaled: (velocity: number) => number = (velocity) => velocity,
): NonNullable<Job['velocityOf']> {
  return ({ note, articulation }) =>
    map.articulations.get(articulation)?.loudness === 'velocity'
      ? scaled(velocityOfLevel(curve.valueAt(note.tick)))
      : undefined;
}

function isControlled(map: ArticulationMap): boolean {
  return [...map.articulations.values()].some(({ loudness }) => loudness === 'controller');
}
