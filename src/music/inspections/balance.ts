import { escapeText } from '../../diagnostics/index.js';
import { exactVelocityOfLevel, together } from '../../dynamics/index.js';
import { formatBars, type Song } from '../../midi/index.js';
import {
  balanceAt,
  type Covered,
  energyByBar,
  levelOfPower,
  loudnessOf,
  measuredLoudness,
  type Sounding,
  type Voice,
  type VoiceBar,
} from '../balance/index.js';
import type { BarBalance } from './bar-balance.js';
import type { Inspection } from './inspection.js';
import { type Phrase, phrasesWithTune } from './phrases.js';
import type { Section } from './sections.js';

/** A section with the energy of each of its voices, by bars. */
interface Playing {
  readonly section: Section;
  readonly voices: readonly { readonly voice: Voice; readonly bars: ReadonlyMap<number, VoiceBar> }[];
  /** Whether all sections are told as they were measured. */
  readonly isMeasured: boolean;
}

/** The sections of which it was not measured how loud their libraries are. */
function unmeasured(sections: readonly Section[]): readonly Section[] {
  return sections.filter(
    ({ voices = [] }) => voices.length === 0 || voices.some(({ map }) => map?.referenceLevel === undefined),
  );
}

/**
 * The balance of each bar in which two sections or more sound. How loud a section is follows from the sounding energy of
 * its notes: by velocity or controller, as its map says, with the volume and expression of its channel, its layers and
 * its players. What covers what is told by phrases, from the section that has the tune: said, or found. The lowest of the
 * others is the bass. Where the maps of all sections have a reference-level, it is what was measured; else strengths,
 * which know of libraries nothing, so that what brings measured ones to others does not count. Seats change nothing: by RP-036 both sides together keep their power. Empty for files without bars.
 */
export function balanceByBar(song: Song, sections: readonly Section[]): readonly BarBalance[] {
  if (sections.length < 2) return [];
  const isMeasured = unmeasured(sections).length === 0;
  const playing = sections.map((section): Playing => {
    const voices = section.voices ?? [{ part: section.part }];
    return {
      section,
      voices: voices.map((voice) => ({ voice, bars: energyByBar(song, voice) })),
      isMeasured,
    };
  });
  const bars = [...new Set(playing.flatMap(({ voices }) => voices.flatMap((one) => [...one.bars.keys()])))];
  const among = bars.sort((a, b) => a - b).filter((bar) => isShared(playing, bar));
  return phrasesWithTune(song, sections, among).flatMap((phrase) => phraseBalance(playing, phrase));
}

/** Whether two sections or more sound in a bar. */
function isShared(playing: readonly Playing[], bar: number): boolean {
  const sounding = playing.filter(({ voices }) => voices.some(({ bars }) => (bars.get(bar)?.time ?? 0) > 0));
  return sounding.length > 1;
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
  const here = playing.flatMap(({ section, voices, isMeasured }) => {
    const sums = voices.flatMap(({ voice, bars: of }) => {
      const sum = summed(bars.flatMap((bar) => of.get(bar) ?? []));
      return sum.time > 0 ? [{ voice, sum }] : [];
    });
    return sums.length > 0 ? [{ section, sums, isMeasured, pitch: pitchOf(sums.map(({ sum }) => sum)) }] : [];
  });
  const others = here.filter(({ section }) => section !== tune);
  const lowest = Math.min(...others.map(({ pitch }) => pitch));
  return here.map(({ section, sums, pitch, isMeasured }): Sounding => {
    const role = section === tune ? 'melody' : pitch === lowest ? 'bass' : 'harmony';
    return { ...loudnessOfVoices(section, sums, isMeasured), role };
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
  isMeasured: boolean,
): Omit<Sounding, 'role'> {
  const loud = sums.map(({ voice, sum }) => {
    const level = levelOfPower(sum.played / sum.time);
    const velocity = exactVelocityOfLevel(level);
    const strength = loudnessOf(kind, voice.players ?? players, level, velocity, department);
    const referenceLevel = isMeasured ? voice.map?.referenceLevel : undefined;
    const own =
      referenceLevel === undefined
        ? strength - (voice.broughtBy ?? 0)
        : measuredLoudness(referenceLevel, velocity);
    const heard = own + 10 * Math.log10(sum.heard / sum.played);
    return { level, velocity, referenceLevel, heard };
  });
  const { level = 0, velocity = 1, referenceLevel } = loud[0] ?? {};
  const plain =
    referenceLevel === undefined
      ? loudnessOf(kind, players, level, velocity, department)
      : measuredLoudness(referenceLevel, velocity);
  const gain = Math.max(silent, together(loud.map(({ heard }) => heard))) - plain;
  const isPlain = Math.abs(gain) < 1e-9;
  return {
    name,
    kind,
    players,
    level,
    ...(department === undefined ? {} : { department }),
    ...(isPlain ? {} : { gain }),
    ...(referenceLevel === undefined ? {} : { referenceLevel }),
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
export function balanceText(bars: readonly BarBalance[], sections: readonly Section[] = []): string {
  if (bars.length === 0) return '';
  const isMeasured = bars.some((bar) => bar.sections.some((one) => one.referenceLevel !== undefined));
  const by = isMeasured ? 'as their libraries were measured' : 'strengths after Rimsky-Korsakov';
  const heading = `Balance over ${bars.length} bars in which sections play together (${by}):`;
  const lines = coveredBars(bars).map(({ from, to, covered }) => {
    return `  ${formatBars([{ from, to }])}: ${escapeText(formatCovered(covered))}`;
  });
  return [
    heading,
    ...unmeasuredLines(sections),
    ...tuneLines(bars),
    ...(lines.length > 0 ? lines : ['  nothing covers anything']),
  ].join('\n');
}

/** What keeps the balance from speaking in measured dB, where some libraries were measured. */
function whyNotMeasured(sections: readonly Section[]): string | undefined {
  const without = unmeasured(sections);
  const isMixed = without.length > 0 && without.length < sections.length;
  if (!isMixed) return undefined;
  const names = without.map(({ name }) => name).join(', ');
  return `not as measured, since there is no reference-level for ${names}`;
}

function unmeasuredLines(sections: readonly Section[]): readonly string[] {
  const why = whyNotMeasured(sections);
  return why === undefined ? [] : [`  ${escapeText(why)}`];
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
  look: (music) => music.balance ?? balanceByBar(music.song, music.sections),
  text: (found, { sections }) => balanceText(found, sections),
  json: (found) => found.map(rounded),
  remarks: (found, { sections }) => {
    const why = found.length > 0 ? whyNotMeasured(sections) : undefined;
    const covering = coveredBars(found);
    return [
      ...(why === undefined ? [] : [{ says: `the balance is ${why}` }]),
      ...covering.map(({ from, to, covered }) => ({ from, to, says: formatCovered(covered) })),
    ];
  },
};
