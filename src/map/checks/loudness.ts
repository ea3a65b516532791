import { type Diagnostic, diagnostic, quoted } from '../../diagnostics/index.js';
import { placeOf } from '../../yaml/index.js';
import type { MapCheck } from './check.js';

/**
 * no-dynamics: an articulation follows a controller, and the map does not say which. loudness-confined: it is said to be
 * loud by a velocity that picks its recording.
 */
export const soundingLoudness: MapCheck = ({ articulations, dynamics }, { yaml, isSure }) => {
  const sure = [...articulations.values()].filter(isSure);
  const followers = sure.filter(({ loudness }) => loudness === 'controller');
  const [first] = followers;
  const unnamed: readonly Diagnostic[] =
    first === undefined || dynamics !== undefined
      ? []
      : [
          diagnostic(
            'no-dynamics',
            placeOf(yaml, ['articulations', first.name, 'loudness']),
            `the loudness of ${quoted(first.name)}${followers.length > 1 ? ` and ${followers.length - 1} more` : ''} comes from a controller, and the map does not say which: no curve can be written for it`,
            'write dynamics: {controller: 1, levels: {p: 40, mf: 70, f: 100}}, with the values of this library, or loudness: velocity',
          ),
        ];
  const confined = sure.flatMap(({ name, velocity, loudness }): readonly Diagnostic[] => {
    const place = placeOf(yaml, ['articulations', name, 'loudness']);
    // The default says nothing of what was meant.
    const isWritten = JSON.stringify(place) !== JSON.stringify(placeOf(yaml, ['articulations', name]));
    if (velocity === undefined || loudness !== 'velocity' || !isWritten) return [];
    const [least, most] = velocity.into;
    return [
      diagnostic(
        'loudness-confined',
        place,
        `the velocities of ${quoted(name)} pick its recording, ${least} to ${most}: they cannot say how loud it is as well`,
        'write loudness: controller where a controller does, or leave loudness out where it only follows within these',
      ),
    ];
  });
  return [...unnamed, ...confined];
};
