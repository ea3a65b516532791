import type { PitchSpan, Voice, VoicePart } from './types.js';

/** Two players read from one stand: a divided voice has no fewer where divisi are made as needed. */
const fewestPlayers = 2;

/** More voices in one part than this were not meant. */
const mostDivisi = 8;

/**
 * The voices of the parts, from low to high by the middle of their registers; of parts that lie alike the first that is
 * named is the higher, as are its own upper voices.
 *
 * @param tones of the fullest chord
 */
export function voicesOf(parts: readonly VoicePart[], tones: number): readonly Voice[] {
  const counts = parts.map(fixedDivisi);
  for (;;) {
    const sum = counts.reduce((all, count) => all + count, 0);
    const next = sum < tones ? mostPlayersEach(parts, counts) : undefined;
    if (next === undefined) break;
    counts[next] = (counts[next] ?? 1) + 1;
  }
  const voices = parts.flatMap((part, index): Voice[] => {
    const { range } = part;
    const register = within(part.register ?? middleHalf(range), range);
    return Array.from({ length: counts[index] ?? 1 }, () => ({ part: index, range, register }));
  });
  return voices.toReversed().sort((a, b) => middle(a.register) - middle(b.register));
}

function fixedDivisi({ divisi = 1, players }: VoicePart): number {
  if (divisi === 'as needed') return 1;
  return Math.max(1, Math.min(Math.floor(divisi), players ?? mostDivisi, mostDivisi));
}

/** The part that may be divided once more and has the most players a voice; undefined where there is none. */
function mostPlayersEach(parts: readonly VoicePart[], counts: readonly number[]): number | undefined {
  let best: number | undefined;
  let most = 0;
  parts.forEach(({ divisi, players = 1 }, index) => {
    const count = (counts[index] ?? 1) + 1;
    if (divisi !== 'as needed' || players < fewestPlayers * count || count > mostDivisi) return;
    const each = players / (count - 1);
    if (each > most) {
      most = each;
      best = index;
    }
  });
  return best;
}

function middleHalf({ low, high }: PitchSpan): PitchSpan {
  const quarter = (high - low) / 4;
  return { low: Math.round(low + quarter), high: Math.round(high - quarter) };
}

function within(span: PitchSpan, range: PitchSpan): PitchSpan {
  const clamp = (pitch: number) => Math.max(range.low, Math.min(range.high, pitch));
  return { low: clamp(span.low), high: clamp(span.high) };
}

function middle({ low, high }: PitchSpan): number {
  return (low + high) / 2;
}

/**
 * Which voices are searched together: all, up to a number; of more the lowest, the highest, and others evenly between
 * them. The rest doubles. A voice that must be among them takes the place of its neighbour.
 *
 * @param must index of the voice with the tune; −1 where there is none
 */
export function searchedVoices(count: number, most: number, must: number): readonly number[] {
  if (count <= most) return Array.from({ length: count }, (_, index) => index);
  const chosen = Array.from({ length: most }, (_, index) => Math.round((index * (count - 1)) / (most - 1)));
  if (must >= 0 && !chosen.includes(must)) {
    const inner = chosen.slice(1, -1);
    const nearest = inner.reduce((near, one) => (Math.abs(one - must) < Math.abs(near - must) ? one : near));
    chosen[chosen.indexOf(nearest)] = must;
  }
  return chosen.sort((a, b) => a - b);
}
