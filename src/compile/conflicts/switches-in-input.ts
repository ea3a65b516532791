import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { times } from '../../map/index.js';
import { firstChannelMode, type Line, musicPlace, type Track } from '../../midi/index.js';

/** switch-in-input: the part has controllers or programs of its own in aspects that the map's switches use. */
export function switchesInInput(
  track: Track,
  line: Line,
  aspectsWritten: (event: Track['events'][number]) => readonly string[],
): readonly Diagnostic[] {
  const found = new Map<string, number[]>();
  track.events.forEach((event, index) => {
    if (event.type !== 'controller' && event.type !== 'programChange') return;
    if (event.channel !== line.part.channel || aspectsWritten(event).length === 0) return;
    // Channel mode messages are nobody's switches.
    if (event.type === 'controller' && event.controllerType >= firstChannelMode) return;
    const name = event.type === 'controller' ? `controller ${event.controllerType}` : 'program';
    const ticks = found.get(name) ?? [];
    if (ticks.push(track.ticks[index] ?? 0) === 1) found.set(name, ticks);
  });
  return [...found].map(([name, ticks]) =>
    diagnostic(
      'switch-in-input',
      musicPlace(line, ticks[0] ?? 0),
      `the part sets ${name} itself (${times(ticks.length)}), which the map uses to switch`,
      'the switch is sent again after each; take these events out of the recording if they are not meant',
    ),
  );
}
