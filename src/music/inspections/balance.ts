import { escapeText } from '../../diagnostics/index.js';
import { levelOfVelocity, withinMarks } from '../../dynamics/index.js';
import { clockOf, formatBars, pairedNotes, type Song, type Track } from '../../midi/index.js';
import { balanceAt, type Covered, type Sounding } from '../balance/index.js';
import type { Inspection } from './inspection.js';
import type { Section } from './sections.js';

/** The balance of one bar: who plays, how loud, and what covers what. */
export interface BarBalance {
  readonly bar: number;
  readonly sections: readonly (Sounding & {
    /** dB against one woodwind at velocity 127. */
    readonly loudness: number;
  })[];
  readonly covered: readonly Covered[];
}

/** What a section plays in a bar. */
interface Played {
  count: number;
  level: number;
  pitch: number;
}

/** Controllers that shape the loudness of held notes: modulation, breath, expression (MIDI 1.0). */
const dynamics = [1, 2, 11];

/**
 * The balance of each bar in which two sections or more play. How loud a section plays is the mean of its dynamics
 * controller there, if it has one, else of its velocities. The section that lies highest is taken for the melody, the
 * lowest for the bass. Empty for files without bars.
 */
export function balanceByBar(song: Song, sections: readonly Section[]): readonly BarBalance[] {
  const played = sections.map((section) => playedByBar(song, section));
  const bars = [...new Set(played.flatMap((one) => [...one.keys()]))].sort((a, b) => a - b);
  return bars.flatMap((bar): BarBalance[] => {
    const here = sections.flatMap((section, index) => {
      const of = played[index]?.get(bar);
      return of ? [{ section, level: of.level / of.count, pitch: of.pitch / of.count }] : [];
    });
    if (here.length < 2) return [];
    const highest = Math.max(...here.map(({ pitch }) => pitch));
    const lowest = Math.min(...here.map(({ pitch }) => pitch));
    const sounding = here.map(({ section: { name, kind, players }, level, pitch }): Sounding => {
      const role = pitch === highest ? 'melody' : pitch === lowest ? 'bass' : 'harmony';
      return { name, kind, players, level, role };
    });
    const { loudness, covered } = balanceAt(sounding);
    return [
      { bar, sections: sounding.map((one, index) => ({ ...one, loudness: loudness[index] ?? 0 })), covered },
    ];
  });
}

function playedByBar(song: Song, { part }: Section): ReadonlyMap<number, Played> {
  const bars = new Map<number, Played>();
  const track = song.tracks[part.track - 1];
  if (!track) return bars;
  const clock = clockOf(song, part.track);
  const loudnessAt = controllerLevels(track, part.channel);
  for (const { tick, pitch, velocity } of pairedNotes(track, part.channel).notes) {
    const bar = clock.position(tick)?.bar;
    if (bar === undefined) continue;
    const of = bars.get(bar) ?? { count: 0, level: 0, pitch: 0 };
    of.count += 1;
    of.level += withinMarks(levelOfVelocity(loudnessAt(tick) ?? velocity));
    of.pitch += pitch;
    bars.set(bar, of);
  }
  return bars;
}

/** The value of the part's dynamics controller at each tick, asked for in order; undefined where there is none. */
function controllerLevels(track: Track, channel: number): (tick: number) => number | undefined {
  const counts = dynamics.map((number) => ({ number, points: pointsOf(track, channel, number) }));
  const [most] = counts.sort((a, b) => b.points.length - a.points.length);
  const points = most && most.points.length > 1 ? most.points : [];
  let next = 0;
  let value: number | undefined;
  return (tick) => {
    for (let point = points[next]; point && point.tick <= tick; point = points[++next]) value = point.value;
    return value;
  };
}

function pointsOf(track: Track, channel: number, number: number) {
  return track.events.flatMap((event, index) =>
    event.type === 'controller' && event.channel === channel && event.controllerType === number
      ? [{ tick: track.ticks[index] ?? 0, value: event.value }]
      : [],
  );
}

/** One section covering another over a stretch of bars, with the most that it does so by. */
interface CoveredBars {
  from: number;
  to: number;
  covered: Covered;
}

/**
 * What covers what, in plain sentences: stretches of bars, and the change that would mend each. Strengths after
 * Rimsky-Korsakov, Principles of Orchestration, chapter I.
 */
export function balanceText(bars: readonly BarBalance[]): string {
  if (bars.length === 0) return '';
  const heading = `Balance over ${bars.length} bars in which sections play together (strengths after Rimsky-Korsakov):`;
  const lines = coveredBars(bars).map(({ from, to, covered }) => {
    return `  ${formatBars([{ from, to }])}: ${escapeText(formatCovered(covered))}`;
  });
  return [heading, ...(lines.length > 0 ? lines : ['  nothing covers anything'])].join('\n');
}

/** One section covering another, in words; not escaped. */
function formatCovered({ name, by, excess, suggested }: Covered): string {
  return `${name} covered by ${by} (${tenth(excess)} dB stronger; ${tenth(suggested)} dB on the latter would mend it)`;
}

/** Successive bars in which one section covers another are told as one. */
function coveredBars(bars: readonly BarBalance[]): readonly CoveredBars[] {
  const open = new Map<string, CoveredBars>();
  const found: CoveredBars[] = [];
  bars.forEach(({ bar, covered }, index) => {
    const before = bars[index - 1]?.bar;
    for (const one of covered) {
      const key = `${one.name}\n${one.by}`;
      const known = open.get(key);
      if (known && known.to === before) {
        known.to = bar;
        if (one.excess > known.covered.excess) known.covered = one;
      } else {
        const stretch = { from: bar, to: bar, covered: one };
        open.set(key, stretch);
        found.push(stretch);
      }
    }
  });
  return found;
}

function tenth(value: number): string {
  return `${value < 0 ? '−' : ''}${Math.abs(Math.round(value * 10) / 10)}`;
}

/** Which section covers which, and by how many dB. */
export const balance: Inspection<readonly BarBalance[]> = {
  name: 'balance',
  look: ({ song, sections }) => balanceByBar(song, sections),
  text: balanceText,
  json: (found) => found,
  remarks: (found) =>
    coveredBars(found).map(({ from, to, covered }) => ({ from, to, says: formatCovered(covered) })),
};
