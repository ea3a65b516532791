import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { type ArticulationMap, messageEvents, takenBy, times } from '../../map/index.js';
import {
  firstChannelMode,
  type Line,
  lastAtMost,
  type MidiEvent,
  musicPlace,
  type Track,
  tickBefore,
} from '../../midi/index.js';

/** A controller or program of the part in an aspect that the map's switches use. */
interface OwnWrite {
  readonly event: Extract<MidiEvent, { type: 'controller' | 'programChange' }>;
  readonly tick: number;
}

/**
 * switch-in-input: the part has controllers or programs of its own in aspects that the map's switches use.
 * already-switched: they are all such as this map sends, where it sends them.
 */
export function switchesInInput(
  track: Track,
  line: Line,
  map: ArticulationMap,
  aspectsWritten: (event: MidiEvent) => readonly string[],
): readonly Diagnostic[] {
  const writes = track.events.flatMap((event, index): OwnWrite[] => {
    if (event.type !== 'controller' && event.type !== 'programChange') return [];
    if (event.channel !== line.part.channel || aspectsWritten(event).length === 0) return [];
    // Channel mode messages are nobody's switches.
    if (event.type === 'controller' && event.controllerType >= firstChannelMode) return [];
    return [{ event, tick: track.ticks[index] ?? 0 }];
  });
  const [first] = writes;
  if (!first) return [];
  if (areOfThisMap(writes, line, map))
    return [
      diagnostic(
        'already-switched',
        musicPlace(line, first.tick),
        `the part already contains switches of this map (${writes.length}, here first)`,
        'compile the recording, not a file that was compiled before',
      ),
    ];
  const found = new Map<string, number[]>();
  for (const { event, tick } of writes) {
    const name = event.type === 'controller' ? `controller ${event.controllerType}` : 'program';
    const ticks = found.get(name) ?? [];
    if (ticks.push(tick) === 1) found.set(name, ticks);
  }
  return [...found].map(([name, ticks]) =>
    diagnostic(
      'switch-in-input',
      musicPlace(line, ticks[0] ?? 0),
      `the part sets ${name} itself (${times(ticks.length)}), which the map uses to switch`,
      'the switch is sent again after each; take these events out of the recording if they are not meant',
    ),
  );
}

/**
 * Whether events say no more than what this map sends, and all stand where it would send them, within a tick. What
 * stands at the very beginning tells nothing: many a recording sets its program there.
 */
function areOfThisMap(writes: readonly OwnWrite[], line: Line, map: ArticulationMap): boolean {
  const { clock, onsets } = line;
  const onsetTicks = onsets.map(({ tick }) => tick);
  const said = new Set(
    [...map.articulations.values()].flatMap(({ switch: messages }) =>
      messages.flatMap((message) =>
        takenBy(message).channel === undefined ? messageEvents(message, line.part.channel).map(saidBy) : [],
      ),
    ),
  );
  const isPlaced = ({ tick }: OwnWrite) => {
    const next = lastAtMost(onsetTicks, tick - 1) + 1;
    const onset = onsetTicks[next];
    if (onset === undefined) return false;
    const earliest = (onsets[next - 1]?.lastTick ?? -1) + 1;
    const placed = Math.min(onset, Math.max(earliest, tickBefore(clock, onset, map.switching.lead)));
    return Math.abs(placed - tick) <= 1;
  };
  return (
    writes.some(({ tick }) => tick > 0) &&
    writes.every((write) => said.has(saidBy(write.event)) && isPlaced(write))
  );
}

function saidBy(event: MidiEvent): string {
  if (event.type === 'controller') return `controller ${event.controllerType} at ${event.value}`;
  return event.type === 'programChange' ? `program ${event.programNumber}` : event.type;
}
