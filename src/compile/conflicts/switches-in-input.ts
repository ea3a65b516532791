import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { type ArticulationMap, messagesOf, takenBy, times } from '../../map/index.js';
import {
  channelOf,
  type Events,
  firstChannelMode,
  firstData,
  kindOf,
  type Line,
  lastAtMost,
  type Message,
  messageBytes,
  messageOf,
  musicPlace,
  secondData,
  statusOf,
  tickBefore,
  tickOf,
} from '../../midi/index.js';

/** A controller or program of the part in an aspect that the map's switches use. */
interface OwnWrite {
  readonly message: Message;
  readonly tick: number;
}

/**
 * switch-in-input: the part has controllers or programs of its own in aspects that the map's switches use.
 * already-switched: they are all such as this map sends, where it sends them.
 */
export function switchesInInput(
  events: Events,
  line: Line,
  map: ArticulationMap,
  aspectsWritten: (events: Events, event: number) => readonly string[],
): readonly Diagnostic[] {
  const writes = ownWrites(events, line.part.channel, aspectsWritten);
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
  for (const { message, tick } of writes) {
    const [status, number] = messageBytes(message);
    const name = status < 0xc0 ? `controller ${number}` : 'program';
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

function ownWrites(
  events: Events,
  channel: number,
  aspectsWritten: (events: Events, event: number) => readonly string[],
): readonly OwnWrite[] {
  const writes: OwnWrite[] = [];
  for (let event = 0; event < events.length; event++) {
    const kind = kindOf(events, event);
    if ((kind !== 0xb0 && kind !== 0xc0) || channelOf(events, event) !== channel) continue;
    // Channel mode messages are nobody's switches.
    if (kind === 0xb0 && firstData(events, event) >= firstChannelMode) continue;
    if (aspectsWritten(events, event).length === 0) continue;
    const message = messageOf(statusOf(events, event), firstData(events, event), secondData(events, event));
    writes.push({ message, tick: tickOf(events, event) });
  }
  return writes;
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
        takenBy(message).channel === undefined ? messagesOf(message, line.part.channel) : [],
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
    writes.some(({ tick }) => tick > 0) && writes.every((write) => said.has(write.message) && isPlaced(write))
  );
}
