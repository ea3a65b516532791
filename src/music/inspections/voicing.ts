import { escapeText, plural, spellPitch } from '../../diagnostics/index.js';
import { formatBars } from '../../midi/index.js';
import { pitchName } from '../harmony/index.js';
import { type Voicing, voicingOf } from '../voicing/index.js';
import type { Inspection, InspectionRemark } from './inspection.js';

/** Something to say of one voicing. */
interface Remark {
  /** Remarks with the same key in successive bars are told as one. */
  readonly key: string;
  /** Of several that are told as one, the weightiest speaks for them. */
  readonly weight: number;
  readonly says: string;
}

/** A remark over a stretch of bars. */
interface Passage {
  readonly tick: number;
  readonly from: number | null;
  to: number | null;
  /** The number of its last voicing. */
  last: number;
  remark: Remark;
}

/** More passages than this are counted only. */
const maxTold = 24;

/** Names of intervals within an octave, by semitones. */
const intervals = [
  'unison',
  'minor second',
  'major second',
  'minor third',
  'major third',
  'fourth',
  'tritone',
  'fifth',
];

/**
 * What there is to say of voicings, with bars and the reason: low narrow intervals, gaps, crossing parts, bare fifths,
 * doubled leading tones, thirds that outnumber the root. First how many are in close and in open position. Empty where
 * nothing sounds together.
 *
 * @param names of the parts by their numbers; from a file, escaped here
 */
export function voicingText(voicings: readonly Voicing[], names: readonly string[]): string {
  if (voicings.length === 0) return '';
  const passages = passagesOf(voicings, names);
  const lines = passages.slice(0, maxTold).map((passage) => `  ${where(passage)}: ${passage.remark.says}`);
  const more = passages.length - lines.length;
  return [countsOf(voicings), ...lines, ...(more > 0 ? [`  … and ${plural(more, 'more place')}`] : [])].join(
    '\n',
  );
}

function countsOf(voicings: readonly Voicing[]): string {
  const count = (fits: (voicing: Voicing) => boolean) => voicings.filter(fits).length;
  const said = [
    `${count(({ kind }) => kind === 'close')} close`,
    `${count(({ kind }) => kind === 'open')} open`,
  ];
  const stacked = count(({ built, bare }) => bare === null && built === 'fourths and fifths');
  const two = count(({ kind }) => kind === null);
  if (two > 0) said.push(`${two} of two notes`);
  const built = stacked > 0 ? `; ${stacked} built in fourths and fifths` : '';
  return `Voicing of ${plural(voicings.length, 'chord')}: ${said.join(', ')}${built}`;
}

function passagesOf(voicings: readonly Voicing[], names: readonly string[]): readonly Passage[] {
  const open = new Map<string, Passage>();
  const found: Passage[] = [];
  voicings.forEach((voicing, index) => {
    for (const remark of remarksOn(voicing, names)) {
      const known = open.get(remark.key);
      if (known && follows(known, voicing, index)) {
        known.to = voicing.bar;
        known.last = index;
        if (remark.weight > known.remark.weight) known.remark = remark;
      } else {
        const { tick, bar } = voicing;
        const passage = { tick, from: bar, to: bar, last: index, remark };
        open.set(remark.key, passage);
        found.push(passage);
      }
    }
  });
  return found;
}

function follows({ to, last }: Passage, { bar }: Voicing, index: number): boolean {
  return to === null || bar === null ? index === last + 1 : bar <= to + 1;
}

function where({ tick, from, to }: Passage): string {
  if (from === null) return `from tick ${tick}`;
  return formatBars([{ from, to: to ?? from }]);
}

function remarksOn(voicing: Voicing, names: readonly string[]): readonly Remark[] {
  const name = (part: number) => escapeText(names[part] ?? `part ${part + 1}`);
  const { mud, gaps, crossings } = voicing;
  const pitch = spellingOf(voicing);
  return [
    ...mud.map(({ lower, upper, semitones, limit }): Remark => {
      const says = `${pitch(lower)}–${pitch(upper)} is a ${intervals[semitones]} that lies low: below ${pitch(limit)} it blurs`;
      return { key: 'mud', weight: limit - lower, says };
    }),
    ...gaps.map(({ lower, upper, semitones }): Remark => {
      const says = `a gap of ${semitones} semitones, ${pitch(lower)} to ${pitch(upper)}: more than an octave between upper voices, which fall apart there`;
      return { key: 'gap', weight: semitones, says };
    }),
    ...crossings.map(({ part, over, ...at }): Remark => {
      const says = `${name(part)} lies above ${name(over)} (${pitch(at.pitch)} over ${pitch(at.overPitch)}), which is usually higher: the ear may take one line for the other`;
      return { key: `crossing ${part} ${over}`, weight: at.pitch - at.overPitch, says };
    }),
    ...bareRemarks(voicing),
    ...doubledRemarks(voicing, name),
  ];
}

/** Two lines that meet at a fourth, or in octaves, are nothing to tell. */
function bareRemarks(voicing: Voicing): readonly Remark[] {
  const { bare, pitches } = voicing;
  const pitch = spellingOf(voicing);
  if (bare === null || bare === 'octaves' || (bare === 'fourths' && pitches.length === 2)) return [];
  const all = pitches.map((one) => pitch(one.pitch)).join('–');
  const says = `bare ${bare} (${all}): without a third it is neither major nor minor`;
  return [{ key: `bare ${bare}`, weight: 0, says }];
}

function doubledRemarks(voicing: Voicing, name: (part: number) => string): readonly Remark[] {
  const { doubled } = voicing;
  const pitch = spellingOf(voicing);
  const root = doubled.find(({ tone }) => tone === 'root')?.times ?? 1;
  return doubled.flatMap(({ tone, leading, times, pitches, parts }): Remark[] => {
    const is = `${pitches.map(pitch).join(', ')} (${parts.map(name).join(', ')})`;
    if (leading) {
      const says = `the leading tone is doubled, ${is}: both want to rise to the tonic`;
      return [{ key: 'leading', weight: times, says }];
    }
    if (tone !== 'third' || times <= root) return [];
    const says = `the third sounds ${times} times, ${is}, more often than the root: it stands out`;
    return [{ key: 'third', weight: times - root, says }];
  });
}

/** Pitches as they are written in their harmony; middle C is C4. */
function spellingOf({ at }: Voicing): (note: number) => string {
  return (note) => (at ? pitchName(note, at) : spellPitch(note, 4));
}

/** Voicings as plain rows; pitches as MIDI notes and by name (60 is C4), parts by name. */
export function voicingJson(voicings: readonly Voicing[], names: readonly string[]): readonly object[] {
  const named = (part: number) => names[part] ?? `part ${part + 1}`;
  return voicings.map((voicing) => {
    const { at: _, pitches, doubled, crossings, gaps, mud, ...rest } = voicing;
    const pitch = spellingOf(voicing);
    const low = ({ lower, upper, semitones }: Voicing['gaps'][number]) => {
      return { lower, upper, names: [pitch(lower), pitch(upper)], semitones };
    };
    return {
      ...rest,
      pitches: pitches.map((one) => {
        return { pitch: one.pitch, name: pitch(one.pitch), parts: one.parts.map(named) };
      }),
      doubled: doubled.map((one) => {
        return { ...one, names: one.pitches.map(pitch), parts: one.parts.map(named) };
      }),
      crossings: crossings.map((one) => ({ ...one, part: named(one.part), over: named(one.over) })),
      gaps: gaps.map(low),
      mud: mud.map((one) => ({ ...low(one), limit: one.limit, limitName: pitch(one.limit) })),
    };
  });
}

/** What is to be considered, bar by bar. */
export function voicingRemarks(
  voicings: readonly Voicing[],
  names: readonly string[],
): readonly InspectionRemark[] {
  return passagesOf(voicings, names).map(({ from, to, remark: { says } }) => ({ from, to, says }));
}

/** How chords are laid out: what is muddy, gaping, bare, crossed or doubled too often. */
export const voicing: Inspection<readonly Voicing[]> = {
  name: 'voicing',
  look: ({ notes, harmony, clock }) => voicingOf(notes, harmony, clock),
  text: (found, { names }) => voicingText(found, names),
  json: (found, { names }) => voicingJson(found, names),
  remarks: (found, { names }) => voicingRemarks(found, names),
};
