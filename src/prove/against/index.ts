// A compiled file against what it was compiled from.
import { clockOf, type Song } from '../../midi/index.js';
import type { Stage } from '../part.js';
import { musicAsSent } from '../sent-music.js';
import { complainer, type Violation } from '../violations.js';
import { align } from './align.js';
import { channelChanges, noteChannels } from './channels.js';
import { differences } from './differences.js';
import { fileChanges } from './file.js';
import { rolesOf } from './insertions.js';
import type { Roles } from './roles.js';

export { type Roles, role } from './roles.js';

/** A compiled file beside its input. */
export interface Comparison {
  readonly violations: readonly Violation[];
  /** What each event of a track of the output is, by track number. */
  readonly roles: ReadonlyMap<number, Roles>;
}

/**
 * Compares every track with the input's: all of the input must be there, in its order, on its ticks. Inserted may only
 * be switches of the maps and copies for other channels of a part. A part's notes may stand on its other channels, and
 * must stand on the keys and have the velocities that their articulations ask for.
 */
export function compareSongs(input: Song, output: Song, stages: readonly Stage[]): Comparison {
  const roles = new Map<number, Roles>();
  const violations = [...fileChanges(input, output)];
  for (const { number, columns: written } of input.tracks) {
    const after = output.tracks[number - 1]?.columns;
    if (!after) continue;
    const ofTrack = stages.filter(({ part }) => part.track === number);
    const before = musicAsSent(written, ofTrack);
    const noteChannel = noteChannels(ofTrack);
    const complain = complainer(number, clockOf(output, number));
    const alignment = align(before, after, noteChannel);
    const told = rolesOf(after, ofTrack, alignment);
    roles.set(number, told.roles);
    const damage = differences({
      input: before,
      output: after,
      missing: alignment.missing,
      alien: told.roles.aliens(),
      noteChannel,
      middleC: ofTrack[0]?.map.middleC ?? 4,
      isPlayed: (channel) => ofTrack.some(({ channels }) => channels.has(channel)),
      complain,
    });
    const moved = channelChanges(written, after, alignment, ofTrack, complain);
    for (const found of [damage, told.violations, moved]) for (const one of found) violations.push(one);
  }
  return { violations, roles };
}
