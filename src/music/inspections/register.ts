import { escapeText, plural, spellPitch } from '../../diagnostics/index.js';
import { type BarRange, formatBarsUpTo } from '../../midi/index.js';
import { type Instrument, instrumentNamed, type PitchRange } from '../instruments/index.js';
import {
  type Outside,
  pitchesOfThird,
  type Register,
  type RegisterObservation,
  registerOf,
} from '../register/index.js';
import type { Inspection, InspectionRemark } from './inspection.js';
import type { Music } from './music.js';

/** More stretches of bars than this are counted only. */
const maxBars = 6;

/**
 * Where each part lies, one line to a part, and below it what a composer may want to consider, with bars and the reason.
 * Empty where there are no parts.
 */
export function registerText(registers: readonly Register[]): string {
  if (registers.length === 0) return '';
  const names = new Map(registers.map(({ part, name }) => [part, name]));
  const heading = "Registers (C4 is middle C; thirds of the instrument's range, in semitones):";
  return [heading, ...registers.flatMap((register) => partLines(register, names))].join('\n');
}

function partLines(register: Register, names: ReadonlyMap<number, string>): readonly string[] {
  const { part, name, instrument, role, lowest, highest, mean, range, thirds } = register;
  const who = name === '' ? `part ${part + 1}` : escapeText(name);
  const is = instrument !== null && instrument.toLowerCase() !== name.toLowerCase() ? `${instrument}, ` : '';
  const shares = thirds
    ? `${percent(thirds.dark)} dark, ${percent(thirds.middle)} middle, ${percent(thirds.bright)} bright`
    : '';
  const of = range ? `; of ${spell(range)}: ${shares}` : '; no range known';
  const lies = `${spell({ low: lowest, high: highest })}, mean ${pitch(mean)}`;
  return [
    `  ${who} (${is}${role}): ${lies}${of}`,
    ...outsideLine(register.outsideInstrument, rangeOf(instrument)),
    ...outsideLine(register.outsideRecording, 'what the recording has'),
    ...register.observations.map(
      (observation) => `    ${observationText(observation, register, names.get(observation.under ?? -1))}`,
    ),
  ];
}

function outsideLine(outside: Outside | null, of: string): readonly string[] {
  if (!outside) return [];
  const { bars } = outside;
  return [`    ${bars.length > 0 ? `${formatBarsUpTo(maxBars, bars)}: ` : ''}${outsideText(outside, of)}`];
}

/** How many notes lie outside a range, and which. */
function outsideText({ notes, range, lowest, highest }: Outside, of: string): string {
  const which = lowest === highest ? pitch(lowest) : spell({ low: lowest, high: highest });
  return `${plural(notes, 'note')} outside ${of}, ${spell(range)}: ${which}`;
}

/** What the instrument does not have, in words; undefined where it has all, or is not known. */
function outsideInstrumentText({ instrument, outsideInstrument }: Register): string | undefined {
  return outsideInstrument ? outsideText(outsideInstrument, rangeOf(instrument)) : undefined;
}

function rangeOf(instrument: string | null): string {
  return `the range of ${article(instrument ?? 'instrument')}`;
}

/**
 * An observation with its reason, in a sentence.
 *
 * @param under the name of the part that plays beneath a low melody
 */
function observationText(
  { what, bars, lowest, highest }: RegisterObservation,
  { instrument, range }: Pick<Register, 'instrument' | 'range'>,
  under = 'another part',
): string {
  const at = bars ? `${formatBarsUpTo(maxBars, [bars])}: ` : '';
  const known = instrument === null ? undefined : instrumentNamed(instrument);
  const played = lowest === highest ? pitch(lowest) : spell({ low: lowest, high: highest });
  const third = (name: 'dark' | 'bright') => `${name} third${range ? `, ${thirdOf(name, range)}` : ''}`;
  if (what === 'low melody') {
    const sounds = known?.character ? ` (low it sounds ${known.character.low}, after Rimsky-Korsakov)` : '';
    return `${at}lies low for a melody: ${played} in its ${third('dark')}${sounds}; ${escapeText(under)} plays close below it, no softer, and may cover it`;
  }
  const lies = what === 'high bass' ? 'lies high for a bass' : 'stays high';
  const reason = what === 'high bass' ? 'there is little ground beneath the chord' : highReason(known);
  return `${at}${lies}: ${played} in its ${third('bright')}; ${reason}`;
}

/** What a line that stays high is like (common practice, no source; the words of Rimsky-Korsakov where he has some). */
function highReason(instrument: Instrument | undefined): string {
  const sounds = instrument?.character
    ? `; very high it sounds ${instrument.character.high}, after Rimsky-Korsakov`
    : '';
  if (instrument?.family === 'strings') return 'it becomes thin, most of all where it is soft';
  if (instrument?.family === 'woodwind' || instrument?.family === 'brass' || instrument?.family === 'voices')
    return `it tires and is hard to keep soft${sounds}`;
  return 'it becomes thin where it is long';
}

function thirdOf(name: 'dark' | 'bright', range: PitchRange): string {
  return spell(pitchesOfThird(name, range));
}

function article(noun: string): string {
  return `${/^[aeiou]/iu.test(noun) ? 'an' : 'a'} ${noun}`;
}

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

function spell({ low, high }: PitchRange): string {
  return `${pitch(low)}–${pitch(high)}`;
}

/** Middle C is C4. */
function pitch(note: number): string {
  return spellPitch(Math.round(note), 4);
}

/** Registers as plain rows; pitches as MIDI notes and by name (60 is C4), observations with their sentences. */
export function registerJson(registers: readonly Register[]): readonly object[] {
  const names = new Map(registers.map(({ part, name }) => [part, name]));
  const range = (of: PitchRange) => ({ ...of, lowName: pitch(of.low), highName: pitch(of.high) });
  const outside = (of: Outside | null) =>
    of && { ...of, range: range(of.range), lowestName: pitch(of.lowest), highestName: pitch(of.highest) };
  return registers.map((register) => ({
    ...register,
    mean: Math.round(register.mean * 100) / 100,
    lowestName: pitch(register.lowest),
    highestName: pitch(register.highest),
    meanName: pitch(register.mean),
    range: register.range && range(register.range),
    outsideInstrument: outside(register.outsideInstrument),
    outsideRecording: outside(register.outsideRecording),
    observations: register.observations.map(({ under, ...observation }) => {
      const name = under === undefined ? undefined : names.get(under);
      return {
        ...observation,
        lowestName: pitch(observation.lowest),
        highestName: pitch(observation.highest),
        under: name,
        says: observationText(observation, register, name),
      };
    }),
  }));
}

/** What a part does not have, and what is to be considered about where it lies. */
function remarksOn(register: Register, music: Music): readonly InspectionRemark[] {
  const names = music.names;
  const at = (bars: BarRange | null | undefined) => {
    const tick = bars ? music.clock.barStart(bars.from) : null;
    return { part: register.part, ...(tick === null ? {} : { tick }), ...bars };
  };
  const outside = outsideInstrumentText(register);
  return [
    ...(outside === undefined ? [] : [{ says: outside, ...at(register.outsideInstrument?.bars[0]) }]),
    ...register.observations.map((observation) => {
      const { bars, under } = observation;
      const below = under === undefined ? undefined : names[under];
      return { says: observationText({ ...observation, bars: null }, register, below), ...at(bars) };
    }),
  ];
}

/** Where each part lies in the range of its instrument and of its recording, and what is unusual about it. */
export const register: Inspection<readonly Register[]> = {
  name: 'register',
  look: ({ notes, described, clock }) => registerOf(notes, described, clock),
  text: registerText,
  json: registerJson,
  remarks: (found, music) => found.flatMap((one) => remarksOn(one, music)),
};
