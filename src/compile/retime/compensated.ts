import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { channelFor } from '../../map/index.js';
import { musicPlace, noteTick, pitchOf, tickAfter } from '../../midi/index.js';
import { type Clamped, compensate, type LateNote, prerollBars } from '../../timing/index.js';
import { articulationOf, byArticulation, onsetOf } from '../decide/index.js';
import { bindSpeaksAfter } from './speaks-after.js';
import { onsetRows, type RetimedPart, type Ticks } from './state.js';

/** Starts each note earlier by the time that its articulation needs to speak, if the part asks for it. */
export function spokenTicks(
  part: RetimedPart,
  { starts, ends }: Ticks,
): { readonly ticks: Ticks; readonly diagnostics: readonly Diagnostic[] } {
  const { line, decided, map, options, heardAfter } = part;
  if (!options.compensate) return { ticks: { starts, ends }, diagnostics: [] };
  const speaksAfter = bindSpeaksAfter(map, line);
  const channelOf = byArticulation(decided, (name) => channelFor(map, name, line.part.channel));
  const order = inOrderOfStarts(part, starts);
  const notes = Array.from(order, (row): LateNote => {
    const onset = starts[row] ?? 0;
    const note = decided.noteOf(row);
    const late = heardAfter?.(note);
    const own = {
      onset,
      release: ends[row] ?? 0,
      pitch: pitchOf(decided, row),
      channel: channelOf(row),
      speaksAfter: speaksAfter({ articulation: articulationOf(decided, row), note }),
      struck: onsetOf(decided, row),
    };
    return late ? { ...own, heardAt: tickAfter(line.clock, onset, late) } : own;
  });
  const { onsets, releases, clamped } = compensate(notes, line.clock);
  const newStarts = starts.slice();
  const newEnds = ends.slice();
  order.forEach((index, at) => {
    newStarts[index] = onsets[at] ?? newStarts[index] ?? 0;
    newEnds[index] = Math.max(releases[at] ?? 0, (onsets[at] ?? 0) + 1);
    if (newStarts[index] === starts[index]) newEnds[index] = releases[at] ?? newEnds[index] ?? 0;
  });
  const late = clampWarnings(part, order, clamped, prerollBars(notes, line.clock));
  return { ticks: { starts: newStarts, ends: newEnds }, diagnostics: late };
}

/** The rows of each onset by their starts. */
function inOrderOfStarts(part: RetimedPart, starts: Float64Array): Uint32Array {
  const rows = onsetRows(part);
  const order = Uint32Array.from({ length: part.decided.length }, (_, row) => row);
  for (let onset = 0; onset < rows.length; onset++)
    if (rows.to(onset) - rows.from(onset) > 1)
      order
        .subarray(rows.from(onset), rows.to(onset))
        .sort((a, b) => (starts[a] ?? 0) - (starts[b] ?? 0) || a - b);
  return order;
}

const reasons = {
  'file-start': 'before the file begins',
  'note-before': 'before the note ahead of it',
  'same-pitch': 'before the same key is free',
} as const;

/** starts-late: notes that cannot start as early as they should, a warning for each reason. */
function clampWarnings(
  { line, decided }: RetimedPart,
  order: Uint32Array,
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
    if (!first) return [];
    const tick = noteTick(decided, order[first.index] ?? 0);
    const most = of.reduce((largest, { wantedMs, gotMs }) => Math.max(largest, gotMs - wantedMs), 0);
    const preroll =
      bars === null || bars === 0 ? 'leave room before the first note' : `--preroll ${bars} gives it room`;
    return [
      diagnostic(
        'starts-late',
        musicPlace(line, tick),
        `${of.length === 1 ? 'a note' : `${of.length} notes, this one first,`} would have to start ${reasons[reason]}: heard late by up to ${Math.round(most)} ms`,
        reason === 'file-start'
          ? preroll
          : 'its sample speaks more slowly than the music moves; a quicker articulation would be heard in time',
      ),
    ];
  });
}
