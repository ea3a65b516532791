import type { ArticulationId, Meaning } from './types.js';

/** How near a sound comes to what was meant, from the best. */
export type Nearness = 'same' | 'variation' | 'plain' | 'lost';

/** What stands for a sound in another library. */
export interface Match {
  readonly nearness: Nearness;
  /** Index among the sounds that were offered; null where the meaning is lost. */
  readonly sound: number | null;
}

const order: readonly Nearness[] = ['same', 'variation', 'plain', 'lost'];

/**
 * The sound of another library that comes nearest to a meaning: the same, else another variation, else the plain sound
 * of its class, else it is lost (the fallback of M2-123, 6.1, up to its last step, the plain sound of the first class,
 * which says nothing of what was meant). A mute is kept only by a mute; another kind of mute counts as a variation. Of
 * several that come as near, the first that is offered.
 *
 * @param sounds what each of the offered sounds means; one sound may stand for several meanings
 */
export function matchMeaning(wanted: Meaning, sounds: readonly (readonly Meaning[])[]): Match {
  let best: Match = { nearness: 'lost', sound: null };
  sounds.forEach((meanings, sound) => {
    for (const offered of meanings) {
      const nearness = nearnessOf(wanted, offered);
      if (order.indexOf(nearness) < order.indexOf(best.nearness)) best = { nearness, sound };
    }
  });
  return best;
}

/** How near one meaning comes to another: as near as the farthest of its aspects. */
export function nearnessOf(wanted: Meaning, offered: Meaning): Nearness {
  const aspects: readonly Nearness[] = [
    articulationNearness(wanted.articulation, offered.articulation),
    muteNearness(wanted, offered),
    positionNearness(wanted.position, offered.position),
    // A direction is a way to play the same sound.
    wanted.direction === undefined || wanted.direction === offered.direction ? 'same' : 'variation',
  ];
  return aspects.reduce((farthest, one) => (order.indexOf(one) > order.indexOf(farthest) ? one : farthest));
}

function articulationNearness(
  wanted: ArticulationId | undefined,
  offered: ArticulationId | undefined,
): Nearness {
  if (!wanted) return !offered || isPlainCore(offered) ? 'same' : 'lost';
  // What says nothing of how it is played is played as usual.
  const has = offered ?? { type: 0x10, subclass: 0, variation: 0 };
  if (wanted.type !== has.type) return 'lost';
  if (soundOf(wanted) === soundOf(has)) return wanted.variation === has.variation ? 'same' : 'variation';
  return soundOf(has) === 0 ? 'plain' : 'lost';
}

/** The first class spreads its plain sound over subclasses 0 and 1 (M2-123, 4.1). */
function soundOf({ type, subclass }: ArticulationId): number {
  return type === 0x10 && subclass === 1 ? 0 : subclass;
}

function isPlainCore(id: ArticulationId): boolean {
  return id.type === 0x10 && soundOf(id) === 0;
}

function muteNearness(wanted: Meaning, offered: Meaning): Nearness {
  const [wants, has] = [wanted.mute ?? 0, offered.mute ?? 0];
  if (wants === has) return (wanted.muteAmount ?? 1) === (offered.muteAmount ?? 1) ? 'same' : 'variation';
  return wants !== 0 && has !== 0 ? 'variation' : 'lost';
}

const usualPosition = 0x80000000;

function positionNearness(wanted = usualPosition, offered = usualPosition): Nearness {
  if (wanted === offered) return 'same';
  const side = (position: number) => Math.sign(position - usualPosition);
  return side(wanted) === side(offered) ? 'variation' : 'lost';
}
