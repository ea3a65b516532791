import { escapeText } from '../../diagnostics/index.js';
import { exactVelocityOfLevel, together } from '../../dynamics/index.js';
import { formatBars, type Song } from '../../midi/index.js';
import {
  balanceAt,
  type Covered,
  energyByBar,
  levelOfPower,
  loudnessOf,
  type Sounding,
  type Voice,
  type VoiceBar,
} from '../balance/index.js';
import type { Inspection } from './inspection.js';
import { type Phrase, phrasesWithTune } from './phrases.js';
import type { Section } from './sections.js';

/** The balance of one bar: who plays, how loud, and what covers what in its phrase. */
export interface BarBalance {
  readonly bar: number;
  /** The bars of its phrase, both ends included. */
  readonly phrase: { readonly from: number; readonly to: number };
  readonly sections: readonly (Sounding & {
    /** dB against one woodwind at velocity 127. */
    readonly loudness: number;
  })[];
  /** Of what is covered over the whole phrase: sections that sound in this bar. */
  readonly covered: readonly Covered[];
}

/** A section with the energy of each of its voices, by bars. */
interface Playing {
  readonly section: Section;
  readonly voices: readonly { readonly voice: Voice; readonly bars: ReadonlyMap<number, VoiceBar> }[];
}

/**
 * The balance of each bar in which two sections or more sound. How loud a section is follows from the sounding energy of
 * its notes: by velocity or controller, as its map says, with the volume and expression of its channel, its layers and
 * its players. What covers what is told by phrases, from the section that has the tune: said, or found. The lowest of the
 * others is the bass. Seats change nothing: by RP-036 both sides together keep their power. Empty for files without bars.
 */
export function balanceByBar(song: Song, sections: readonly Section[]): readonly BarBalance[] {
  const playing = sections.map((section): Playing => {
    const voices = section.voices ?? [{ part: section.part }];
    return { section, voices: voices.map((voice) => ({ voice, bars: energyByBar(song, voice) })) };
  });
  const bars = [...new Set(playing.flatMap(({ voices }) => voices.flatMap((one) => [...one.bars.keys()])))];
  const among = bars.sort((a, b) => a - b).filter((bar) => soundingIn(playing, [bar]).length > 1);
  return phrasesWithTune(song, sections, among).flatMap((phrase) => phraseBalance(playing, phrase));
}

function phraseBalance(playing: readonly Playing[], { bars, tune }: Phrase): readonly BarBalance[] {
  const whole = soundingIn(playing, bars, tune);
  const { covered } = balanceAt(whole);
  const phrase = { from: bars[0] ?? 0, to: bars.at(-1) ?? 0 };
  return bars.map((bar): BarBalance => {
    const here = soundingIn(playing, [bar], tune);
    const names = new Set(here.map(({ name }) => name));
    const { loudness } = balanceAt(here);
    return {
      bar,
      phrase,
      sections: here.map((one, index) => ({ ...one, loudness: loudness[index] ?? 0 })),
      covered: covered.filter(({ name, by }) => names.has(name) && names.has(by)),
    };
  });
}

/** The sections that sound in some bars, with what they come to over all of them. */
function soundingIn(
  playing: readonly Playing[],
  bars: readonly number[],
  tune?: Section,
): readonly Sounding[] {
  const here = playing.flatMap(({ section, voices }) => {
    const sums = voices.flatMap(({ voice, bars: of }) => {
      const sum = summed(bars.flatMap((bar) => of.get(bar) ?? []));
      return sum.time > 0 ? [{ voice, sum }] : [];
    });
    return sums.length > 0 ? [{ section, sums, pitch: pitchOf(sums.map(({ sum }) => sum)) }] : [];
  });
  const others = here.filter(({ section }) => section !== tune);
  const lowest = Math.min(...others.map(({ pitch }) => pitch));
  return here.map(({ section, sums, pitch }): Sounding => {
    const role = section === tune ? 'melody' : pitch === lowest ? 'bass' : 'harmony';
    return { ...loudnessOfVoices(section, sums), role };
  });
}

function summed(bars: readonly VoiceBar[]): VoiceBar {
  return bars.reduce(
    (sum, bar) => ({
      time: sum.time + bar.time,
      played: sum.played + bar.played,
      heard: sum.heard + bar.heard,
      pitch: sum.pitch + bar.pitch,
    }),
    { time: 0, played: 0, heard: 0, pitch: 0 },
  );
}

function pitchOf(sums: readonly VoiceBar[]): number {
  const { pitch, time } = summed(sums);
  return pitch / time;
}

/** How loud the first voice plays, and what the mix and the other voices add to it. */
function loudnessOfVoices(
  { name, kind, players, department }: Section,
  sums: readonly { readonly voice: Voice; readonly sum: VoiceBar }[],
): Omit<Sounding, 'role'> {
  const loud = sums.map(({ voice, sum }) => {
    const level = levelOfPower(sum.played / sum.time);
    const velocity = exactVelocityOfLevel(level);
    const own = loudnessOf(kind, voice.players ?? players, level, velocity, department);
    return { level, velocity, heard: own + 10 * Math.log10(sum.heard / sum.played) };
  });
  const { level = 0, velocity = 1 } = loud[0] ?? {};
  const plain = loudnessOf(kind, players, level, velocity, department);
  const gain = Math.max(silent, together(loud.map(({ heard }) => heard))) - plain;
  const isPlain = Math.abs(gain) < 1e-9;
  return {
    name,
    kind,
    players,
    level,
    ...(department === undefined ? {} : { department }),
    ...(isPlain ? {} : { gain }),
  };
}

/** What is turned down altogether. Unit: dB. */
const silent = -120;

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
  return [heading, ...tuneLines(bars), ...(lines.length > 0 ? lines : ['  nothing covers anything'])].join(
    '\n',
  );
}

/** More handings-over of the tune than this are counted only. */
const maxTunes = 12;

/** Who is taken to have the tune, and where. */
function tuneLines(bars: readonly BarBalance[]): readonly string[] {
  const found: { name: string; from: number; to: number }[] = [];
  for (const { bar, sections } of bars) {
    const name = sections.find(({ role }) => role === 'melody')?.name;
    const last = found.at(-1);
    if (name === undefined) continue;
    if (last?.name === name) last.to = bar;
    else found.push({ name, from: bar, to: bar });
  }
  if (found.length === 0) return [];
  const told = found.slice(0, maxTunes).map(({ name, from, to }) => {
    return `${escapeText(name)} (${formatBars([{ from, to }])})`;
  });
  const more = found.length - told.length;
  return [`  the tune: ${told.join(', ')}${more > 0 ? `, and ${more} more` : ''}`];
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

/** To a thousandth: the last digits of logarithms are others in another version of Node.js. */
function rounded(bar: BarBalance): BarBalance {
  const near = (value: number) => Math.round(value * 1000) / 1000;
  return {
    ...bar,
    sections: bar.sections.map((one) => ({
      ...one,
      level: near(one.level),
      loudness: near(one.loudness),
      ...(one.gain === undefined ? {} : { gain: near(one.gain) }),
    })),
    covered: bar.covered.map((one) => ({ ...one, excess: near(one.excess) })),
  };
}

/** Which section covers which, and by how many dB. */
export const balance: Inspection<readonly BarBalance[]> = {
  name: 'balance',
  look: ({ song, sections }) => balanceByBar(song, sections),
  text: balanceText,
  json: (found) => found.map(rounded),
  remarks: (found) =>
    coveredBars(found).map(({ from, to, covered }) => ({ from, to, says: formatCovered(covered) })),
};
