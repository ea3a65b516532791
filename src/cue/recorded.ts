import { type Diagnostic, diagnostic, type Place } from '../diagnostics/index.js';
import { type ArticulationMap, switchesWith } from '../map/index.js';
import { controllerEvents, secondData, type Track } from '../midi/index.js';

/** Controllers on which dynamics are played: modulation, breath, expression (MIDI 1.0). */
const usual = [1, 2, 11];

/** How a controller moves in a part. */
interface Movement {
  readonly controller: number;
  readonly events: number;
  /** All its ways up and down added. Unit: controller steps. */
  readonly travel: number;
}

/** A voice with a recording of its dynamics. */
export interface RecordedVoice {
  /** For messages: `"Horns"`. */
  readonly name: string;
  readonly place: Place;
  readonly track: Track;
  /** 0–15. */
  readonly channel: number;
  readonly map: ArticulationMap;
  /** What the cue's levels are written to; its curve is no curve of dynamics. Absent where there are no levels. */
  readonly levelController?: number;
}

/** The controller that the dynamics of a part were recorded on; absent where none was recorded. */
export interface Recorded {
  readonly controller?: number;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Finds the controller that the dynamics were recorded on: the one that the cue names, else the one that moves most among
 * 1, 2, 11 and the library's own, which comes first where several move alike.
 * Diagnostics: no-curve, two-curves, nothing-to-keep, controller-taken.
 *
 * @param from the controller that the cue names
 */
export function recordedController(voice: RecordedVoice, from: number | undefined): Recorded {
  const { name, place } = voice;
  if (from !== undefined) return namedController(voice, from);
  const [first, ...others] = candidates(voice);
  if (!first) {
    const hint = 'record modulation, breath or expression with it, or take source: shape, or marks';
    const message = `${name} is to keep its recorded dynamics, but no controller of dynamics was recorded in it`;
    return { diagnostics: [diagnostic('nothing-to-keep', place, message, hint)] };
  }
  const own = others.find(({ controller }) => controller === voice.map.dynamics?.controller);
  return {
    controller: first.controller,
    diagnostics: own && own.travel > 0 ? [twoCurves(voice, first, own)] : [],
  };
}

function namedController(voice: RecordedVoice, from: number): Recorded {
  const { name, place, track, channel, levelController } = voice;
  if (from === levelController) {
    const message = `the dynamics of ${name} are to come from controller ${from}, which its level is written to`;
    const hint = 'give level-controller another number, or take the level out';
    return { controller: from, diagnostics: [diagnostic('controller-taken', place, message, hint)] };
  }
  if (movementOf(track, channel, from).events > 0) return { controller: from, diagnostics: [] };
  const found = candidates(voice).map(({ controller }) => controller);
  return {
    diagnostics: [
      diagnostic(
        'no-curve',
        place,
        `the dynamics of ${name} are to come from controller ${from}, which was not recorded in it`,
        found.length > 0
          ? `controllers of dynamics that were recorded: ${found.join(', ')}`
          : 'no controller of dynamics was recorded: source: shape, or marks, makes a curve',
      ),
    ],
  };
}

/** curve-unheard: a curve was recorded, the library listens to another controller, and the cue does not say what of it. */
export function unheardCurve(voice: RecordedVoice): readonly Diagnostic[] {
  const { name, place, map, track, channel } = voice;
  const { dynamics } = map;
  if (!dynamics || movementOf(track, channel, dynamics.controller).events > 0) return [];
  // Expression is heard beside whatever shapes the library (General MIDI).
  const [first] = candidates(voice).filter(({ controller, travel }) => controller !== 11 && travel > 0);
  if (!first) return [];
  return [
    diagnostic(
      'curve-unheard',
      place,
      `controller ${first.controller} moves in ${name}, but its library listens to controller ${dynamics.controller}`,
      'dynamics: {source: keep} carries the curve over',
    ),
  ];
}

/** The controllers of dynamics that were recorded, the one that moves most first. */
function candidates({ track, channel, map, levelController }: RecordedVoice): readonly Movement[] {
  const own = map.dynamics?.controller;
  const numbers = [...new Set([...(own === undefined ? [] : [own]), ...usual])];
  return numbers
    .filter((number) => number === own || (number !== levelController && !switchesWith(map, number)))
    .map((number) => movementOf(track, channel, number))
    .filter(({ events }) => events > 0)
    .sort((a, b) => b.travel - a.travel);
}

function movementOf({ columns }: Track, channel: number, controller: number): Movement {
  const events = controllerEvents(columns, channel, controller);
  const values = events.map((event) => secondData(columns, event));
  const travel = values.reduce(
    (sum, value, index) => sum + Math.abs(value - (values[index - 1] ?? value)),
    0,
  );
  return { controller, events: events.length, travel };
}

function twoCurves({ name, place }: RecordedVoice, most: Movement, own: Movement): Diagnostic {
  return diagnostic(
    'two-curves',
    place,
    `controllers ${most.controller} and ${own.controller} both move in ${name}, and only one of them can be kept`,
    `say which: dynamics: {source: keep, from: ${most.controller}}, or from: ${own.controller}`,
  );
}
