import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { channelFor } from '../../map/index.js';
import { type Clock, type Duration, musicPlace } from '../../midi/index.js';
import {
  type Clamped,
  type Compensated,
  compensate,
  type LateNote,
  prerollBars,
} from '../../timing/index.js';
import { bindSpeaksAfter } from './speaks-after.js';
import type { RetimedPart, Ticks } from './state.js';

const nothing: Duration = { unit: 'ms', ms: 0 };

/**
 * Starts each note earlier by the time that its articulation needs to speak, if the part asks for it; keeps the notes
 * of each channel in order either way, with room for a switch where one is needed.
 */
export function spokenTicks(
  part: RetimedPart,
  { starts, ends }: Ticks,
): { readonly ticks: Ticks; readonly diagnostics: readonly Diagnostic[] } {
  const { line, decisions, map, options } = part;
  const speaksAfter = options.compensate ? bindSpeaksAfter(map, line) : () => nothing;
  const order = decisions
    .map((_, index) => index)
    .sort((a, b) => (starts[a] ?? 0) - (starts[b] ?? 0) || a - b);
  const before = new Map<
    number,
    { readonly articulation: string; readonly onset: number; readonly needsSwitch: boolean }
  >();
  const notes = order.flatMap((index): LateNote[] => {
    const decision = decisions[index];
    if (!decision) return [];
    const channel = channelFor(map, decision.articulation, line.part.channel);
    const { articulation, note } = decision;
    const last = before.get(channel);
    // All notes of a chord stand behind the switch that the first of them needs.
    const isSame = last?.onset === note.onset && last.articulation === articulation;
    const needsSwitch = isSame ? last.needsSwitch : last?.articulation !== articulation;
    before.set(channel, { articulation, onset: note.onset, needsSwitch });
    return [
      {
        onset: starts[index] ?? 0,
        release: ends[index] ?? 0,
        pitch: decision.note.pitch,
        channel,
        speaksAfter: speaksAfter(decision),
        needsSwitch,
      },
    ];
  });
  const { onsets, releases, clamped } = behindSamePitch(notes, compensate(notes, line.clock), line.clock);
  const newStarts = [...starts];
  const newEnds = [...ends];
  order.forEach((index, at) => {
    newStarts[index] = onsets[at] ?? newStarts[index] ?? 0;
    newEnds[index] = releases[at] ?? newEnds[index] ?? 0;
  });
  const late = options.compensate ? clampWarnings(part, order, clamped, prerollBars(notes, line.clock)) : [];
  return { ticks: { starts: newStarts, ends: newEnds }, diagnostics: late };
}

/**
 * Keeps the notes of one pitch in order across channels too, so that it stays plain which release is whose. Each channel
 * for itself is in order already.
 */
function behindSamePitch(notes: readonly LateNote[], done: Compensated, clock: Clock): Compensated {
  const latest = new Map<number, { readonly played: number; readonly onset: number }>();
  const onsets = [...done.onsets];
  const releases = [...done.releases];
  const clamped = [...done.clamped];
  notes.forEach((note, index) => {
    const wanted = onsets[index] ?? note.onset;
    const before = latest.get(note.pitch);
    const isBehind = !before || before.played === note.onset || wanted > before.onset;
    const onset = isBehind ? wanted : before.onset + 1;
    if (!isBehind) {
      onsets[index] = onset;
      releases[index] = Math.max(releases[index] ?? 0, onset + 1);
      clamped.push({ index, wantedMs: clock.ms(wanted), gotMs: clock.ms(onset), reason: 'same-pitch' });
    }
    latest.set(note.pitch, { played: note.onset, onset });
  });
  return { ...done, onsets, releases, clamped };
}

const reasons = {
  'file-start': 'before the file begins',
  'note-before': 'before the note ahead of it',
  'same-pitch': 'before the same key is free',
} as const;

/** starts-late: notes that cannot start as early as they should, a warning for each reason. */
function clampWarnings(
  { line, decisions }: RetimedPart,
  order: readonly number[],
  clamped: readonly Clamped[],
  bars: number | null,
): readonly Diagnostic[] {
  const byReason = new Map<keyof typeof reasons, Clamped[]>();
  for (const one of clamped) {
    const others = byReason.get(one.reason);
    if (others) others.push(one);
    else byReason.set(one.reason, [one]);
  }
  return [...byReason].flatMap(([reason, of]): Diagnostic[] => {
    const [first] = of;
    const decision = first && decisions[order[first.index] ?? 0];
    if (!first || !decision) return [];
    const most = of.reduce((largest, { wantedMs, gotMs }) => Math.max(largest, gotMs - wantedMs), 0);
    const preroll =
      bars === null || bars === 0 ? 'leave room before the first note' : `--preroll ${bars} gives it room`;
    return [
      diagnostic(
        'starts-late',
        musicPlace(line, decision.note.tick),
        `${of.length === 1 ? 'a note' : `${of.length} notes, this one first,`} would have to start ${reasons[reason]}: heard late by up to ${Math.round(most)} ms`,
        reason === 'file-start'
          ? preroll
          : 'its sample speaks more slowly than the music moves; a quicker articulation would be heard in time',
      ),
    ];
  });
}
