import { type Diagnostic, quoted } from '../diagnostics/index.js';
import { identityLevels, type LevelTable } from '../dynamics/index.js';
import type { ArticulationMap } from '../map/index.js';
import type { Track } from '../midi/index.js';
import { recordedController, unheardCurve } from './recorded.js';
import type { Cue, CuePart } from './types.js';

/** The dynamics that a part keeps from its recording. */
export interface Kept {
  /** The controller that they were recorded on, and what its values sounded like; absent where there is none. */
  readonly recorded?: { readonly controller: number; readonly levels: LevelTable };
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Finds what a part keeps of its recorded dynamics; nothing where the cue does not ask for it.
 * Diagnostics: no-curve, two-curves, nothing-to-keep, curve-unheard, controller-taken.
 */
export function keptBy(
  { controllers }: Pick<Cue, 'controllers'>,
  wanted: CuePart,
  map: ArticulationMap,
  track: Track,
  channel: number,
): Kept {
  const { dynamics } = wanted;
  const isLevelled =
    wanted.level !== undefined ||
    wanted.players !== undefined ||
    wanted.divide !== undefined ||
    wanted.layers.some(hasLevel);
  const voice = {
    name: quoted(wanted.name),
    place: wanted.place,
    track,
    channel,
    map,
    ...(isLevelled ? { levelController: controllers.level } : {}),
  };
  if (dynamics === undefined) return { diagnostics: unheardCurve(voice) };
  if (dynamics.source !== 'keep') return { diagnostics: [] };
  const { controller, diagnostics } = recordedController(voice, dynamics.from);
  if (controller === undefined) return { diagnostics };
  return { recorded: { controller, levels: dynamics.levels ?? identityLevels }, diagnostics };
}

function hasLevel({ level }: CuePart['layers'][number]): boolean {
  return level !== undefined;
}
