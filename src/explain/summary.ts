import type { CompiledPart } from '../compile/index.js';
import { escapeText } from '../diagnose/escape.js';

/** What was compiled, in a few lines: notes for each articulation and switches sent, part by part. */
export function summary(parts: readonly CompiledPart[], input: string, output: string): string {
  const lines = parts.flatMap((part) => ['', ...partSummary(part)]);
  return `${escapeText(input)} → ${output === '-' ? 'standard output' : escapeText(output)}\n${lines.slice(1).join('\n')}\n`;
}

function partSummary({ part, map, decisions, realised }: CompiledPart): readonly string[] {
  const counts = new Map([...map.articulations.keys()].map((name) => [name, 0]));
  for (const { articulation } of decisions) counts.set(articulation, (counts.get(articulation) ?? 0) + 1);
  const used = [...counts].filter(([, count]) => count > 0);
  const width = used.reduce((widest, [name]) => Math.max(widest, name.length), 0);
  return [
    `Track ${part.track}${part.trackName === '' ? '' : ` "${escapeText(part.trackName)}"`}, channel ${part.channel + 1}: ${escapeText(map.library)}, ${escapeText(map.instrument)}`,
    ...used.map(([name, count]) => `  ${name.padEnd(width)}  ${plural(count, 'note')}`),
    `  ${plural(realised.switches, 'switch', 'switches')} sent before ${plural(decisions.length, 'note')}`,
  ];
}

function plural(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
