import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { channelFor } from '../../map/index.js';
import { musicPlace, tickAfter } from '../../midi/index.js';
import { type Clamped, compensate, type LateNote, prerollBars } from '../../timing/index.js';
import { bindSpeaksAfter } from './speaks-after.js';
import { byOnset, type RetimedPart, type Ticks } from './state.js';

/** Starts each note earlier by the time that its articulation needs to speak, if the part asks for it. */
export function spokenTicks(
  part: RetimedPart,
  { starts, ends }: Ticks,
): { readonly ticks: Ticks; readonly diagnostics: readonly Diagnostic[] } {
  const { line, decisions, map, options, heardAfter } = part;
  if (!options.compensate) return { ticks: { starts, ends }, diagnostics: [] };
  const speaksAfter = bindSpeaksAfter(map, line);
  const order = byOnset(part).flatMap((group) =>
    [...group].sort((a, b) => (starts[a] ?? 0) - (starts[b] ?? 0) || a - b),
  );
  const notes = order.flatMap((index): LateNote[] => {
    const decision = decisions[index];
    if (!decision) return [];
    const onset = starts[index] ?? 0;
    const late = heardAfter?.(decision.note);
    return [
      {
        onset,
        release: ends[index] ?? 0,
        pitch: decision.note.pitch,
        channel: channelFor(map, decision.articulation, line.part.channel),
        speaksAfter: speaksAfter(decision),
        struck: decision.note.onset,
        ...(late ? { heardAt: tickAfter(line.clock, onset, late) } : {}),
      },
    ];
  });
  const { onsets, releases, clamped } = compensate(notes, line.clock);
  const newStarts = [...starts];
  const newEnds = [...ends];
  order.forEach((index, at) => {
    newStarts[index] = onsets[at] ?? newStarts[index] ?? 0;
    newEnds[index] = Math.max(releases[at] ?? 0, (onsets[at] ?? 0) + 1);
    if (newStarts[index] === starts[index]) newEnds[index] = releases[at] ?? newEnds[index] ?? 0;
  });
  const late = clampWarnings(part, order, clamped, prerollBars(notes, line.clock));
  return { ticks: { starts: newStarts, ends: newEnds }, diagnostics: late };
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
