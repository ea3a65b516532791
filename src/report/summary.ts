import type { CompiledPart, DecidedNotes } from '../compile/index.js';
import { escapeText, plural } from '../diagnostics/index.js';
import { type Clock, noteEnd, noteTick, partHeading } from '../midi/index.js';

/** What was compiled, in a few lines: notes for each articulation and switches sent, part by part. */
export function summary(parts: readonly CompiledPart[], input: string, output: string): string {
  const lines = parts.flatMap((part) => ['', ...partSummary(part)]);
  return `${escapeText(input)} → ${output === '-' ? 'standard output' : escapeText(output)}\n${lines.slice(1).join('\n')}\n`;
}

function partSummary({ part, map, decided, retimed, switched, line }: CompiledPart): readonly string[] {
  const counts = new Uint32Array(decided.names.length);
  for (const articulation of decided.articulation) counts[articulation] = (counts[articulation] ?? 0) + 1;
  const used = decided.names.flatMap((name, articulation) => {
    const count = counts[articulation] ?? 0;
    return count > 0 ? [{ name, count }] : [];
  });
  const width = used.reduce((widest, { name }) => Math.max(widest, name.length), 0);
  return [
    `${partHeading(part)}: ${escapeText(map.library)}, ${escapeText(map.instrument)}`,
    ...used.map(({ name, count }) => `  ${name.padEnd(width)}  ${plural(count, 'note')}`),
    ...movedSummary(line.clock, decided, retimed.decided),
    `  ${plural(switched.switches, 'switch', 'switches')} sent before ${plural(decided.length, 'note')}`,
    ...(isWithoutLead(retimed.decided, switched) ? [withoutLead] : []),
  ];
}

/** Whether the first note stands where nothing can come before it, and needs a switch. */
function isWithoutLead(rows: DecidedNotes, { switchTickOf }: CompiledPart['switched']): boolean {
  for (let row = 0; row < rows.length; row++)
    if (noteTick(rows, row) === 0 && switchTickOf(row) === 0) return true;
  return false;
}

const withoutLead =
  '  the first note stands at the very beginning: its switch has no time before it (--preroll 1 moves the music a bar)';

/** How many notes were moved, and by how much. */
function movedSummary(clock: Clock, played: DecidedNotes, now: DecidedNotes): readonly string[] {
  if (now === played) return [];
  let count = 0;
  let earlier = 0;
  let later = 0;
  for (let row = 0; row < played.length; row++) {
    const [was, is] = [noteTick(played, row), noteTick(now, row)];
    if (is !== was || noteEnd(now, row) !== noteEnd(played, row)) count += 1;
    const ms = clock.ms(is) - clock.ms(was);
    earlier = Math.max(earlier, -ms);
    later = Math.max(later, ms);
  }
  if (count === 0) return [];
  return [
    `  ${plural(count, 'note')} moved, by up to ${Math.round(earlier)} ms earlier and ${Math.round(later)} ms later`,
  ];
}
