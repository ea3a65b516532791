import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { type ArticulationMap, durationsIn } from '../../map/index.js';
import { type Duration, type Line, musicPlace } from '../../midi/index.js';

/** fraction-without-beats: the file counts SMPTE frames, and the map measures fractions of a whole note or bars. */
export function beatlessFractions(line: Line, map: ArticulationMap): readonly Diagnostic[] {
  if (line.clock.ticksPerWhole !== null) return [];
  const fractions = durationsOf(map).filter(([, duration]) => duration.unit === 'whole');
  const keys = [...new Set(fractions.map(([key]) => key))];
  if (map.switching.restate.everyBars !== undefined) keys.push('every-bars');
  return keys.map((key) =>
    diagnostic(
      'fraction-without-beats',
      musicPlace(line, line.notes[0]?.tick ?? 0),
      `${key} is measured in notes or bars in the map, but the file counts SMPTE frames, which know neither`,
      'write the duration in ms or s',
    ),
  );
}

function durationsOf({
  switching,
  chordWindow,
  rules,
}: ArticulationMap): readonly (readonly [string, Duration])[] {
  const { afterRest } = switching.restate;
  return [
    ['lead', switching.lead],
    ['tap', switching.tap],
    ...(afterRest ? [['after-rest', afterRest] as const] : []),
    ['chord-window', chordWindow],
    ...rules.flatMap(({ when }) => (when ? durationsIn(when) : [])),
  ];
}
