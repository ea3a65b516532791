import type { CompiledPart, Decision } from '../compile/index.js';
import { escapeText, plural } from '../diagnostics/index.js';
import { type Clock, partHeading } from '../midi/index.js';

/** What was compiled, in a few lines: notes for each articulation and switches sent, part by part. */
export function summary(parts: readonly CompiledPart[], input: string, output: string): string {
  const lines = parts.flatMap((part) => ['', ...partSummary(part)]);
  return `${escapeText(input)} → ${output === '-' ? 'standard output' : escapeText(output)}\n${lines.slice(1).join('\n')}\n`;
}

function partSummary({ part, map, decisions, retimed, switched, line }: CompiledPart): readonly string[] {
  const counts = new Map([...map.articulations.keys()].map((name) => [name, 0]));
  for (const { articulation } of decisions) counts.set(articulation, (counts.get(articulation) ?? 0) + 1);
  const used = [...counts].filter(([, count]) => count > 0);
  const width = used.reduce((widest, [name]) => Math.max(widest, name.length), 0);
  return [
    `${partHeading(part)}: ${escapeText(map.library)}, ${escapeText(map.instrument)}`,
    ...used.map(([name, count]) => `  ${name.padEnd(width)}  ${plural(count, 'note')}`),
    ...movedSummary(line.clock, decisions, retimed.decisions),
    `  ${plural(switched.switches, 'switch', 'switches')} sent before ${plural(decisions.length, 'note')}`,
    ...(isWithoutLead(retimed.decisions, switched.switchTicks) ? [withoutLead] : []),
  ];
}

/** Whether the first note stands where nothing can come before it, and needs a switch. */
function isWithoutLead(
  decisions: readonly Decision[],
  switchTicks: readonly (number | null | undefined)[],
): boolean {
  return decisions.some(({ note }, index) => note.tick === 0 && switchTicks[index] === 0);
}

const withoutLead =
  '  the first note stands at the very beginning: its switch has no time before it (--preroll 1 moves the music a bar)';

/** How many notes were moved, and by how much. */
function movedSummary(
  clock: Clock,
  played: readonly Decision[],
  now: readonly Decision[],
): readonly string[] {
  let count = 0;
  let earlier = 0;
  let later = 0;
  played.forEach(({ note }, index) => {
    const moved = now[index]?.note ?? note;
    if (moved.tick !== note.tick || moved.endTick !== note.endTick) count += 1;
    const ms = clock.ms(moved.tick) - clock.ms(note.tick);
    earlier = Math.max(earlier, -ms);
    later = Math.max(later, ms);
  });
  if (count === 0) return [];
  return [
    `  ${plural(count, 'note')} moved, by up to ${Math.round(earlier)} ms earlier and ${Math.round(later)} ms later`,
  ];
}
