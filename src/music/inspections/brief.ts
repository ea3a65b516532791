import { escapeText, plural } from '../../diagnostics/index.js';
import { formatBars, partHeading } from '../../midi/index.js';
import type { Harmony } from '../harmony/index.js';
import type { MeasureName } from '../mechanical/index.js';
import type { Inspected, InspectionRemark } from './inspection.js';
import { type MechanicalPart, measureParts } from './mechanical.js';
import type { Music } from './music.js';

/** What there is to say of a recording on one screen. */
export interface Brief {
  /** Those that sound most mechanical come first. */
  readonly parts: readonly BriefPart[];
  /** The key that holds longest, and its share of the time that has harmony, 0–1; null where there is none. */
  readonly key: { readonly name: string; readonly share: number } | null;
  /** By the name of each inspection that remarks on anything. */
  readonly remarks: readonly {
    readonly inspection: string;
    readonly count: number;
    /** Those that hold over most bars, three at most. */
    readonly worst: readonly InspectionRemark[];
  }[];
}

export interface BriefPart {
  readonly part: MechanicalPart['part'];
  readonly notes: number;
  /** What is heard as mechanical, and in which share of what was looked at, 0–1; the largest share first. */
  readonly mechanical: readonly { readonly measure: MeasureName; readonly share: number }[];
}

const mostWorst = 3;
/** Parts that are told: half a screen of 24 lines. */
const mostParts = 12;

/** @param others what inspections other than that of mechanical playing have found */
export function briefOf({ song, parts, harmony }: Music, others: readonly Inspected[]): Brief {
  return {
    parts: measureParts(song, parts)
      .map(briefPart)
      .sort((a, b) => (b.mechanical[0]?.share ?? 0) - (a.mechanical[0]?.share ?? 0)),
    key: mainKey(harmony),
    remarks: others.flatMap((one) => {
      const remarks = one.remarks();
      const worst = [...remarks].sort((a, b) => barsOf(b) - barsOf(a)).slice(0, mostWorst);
      return remarks.length === 0 ? [] : [{ inspection: one.name, count: remarks.length, worst }];
    }),
  };
}

function briefPart({ part, notes, measures }: MechanicalPart): BriefPart {
  const heard = measures.filter(({ bars }) => bars.length > 0);
  return {
    part,
    notes,
    mechanical: heard
      .map(({ measure, count, of }) => ({ measure, share: count / Math.max(1, of) }))
      .sort((a, b) => b.share - a.share),
  };
}

function mainKey(harmony: readonly Harmony[]): Brief['key'] {
  const lengths = new Map<string, number>();
  let whole = 0;
  for (const { tick, endTick, key } of harmony) {
    lengths.set(key.name, (lengths.get(key.name) ?? 0) + endTick - tick);
    whole += endTick - tick;
  }
  const [longest] = [...lengths].sort(([, a], [, b]) => b - a);
  return longest ? { name: longest[0], share: longest[1] / Math.max(1, whole) } : null;
}

/** Over how many bars a remark holds. */
function barsOf({ from, to }: InspectionRemark): number {
  return typeof from === 'number' ? (to ?? from) - from + 1 : 0;
}

const words: { readonly [M in MeasureName]: string } = {
  'exact-onsets': 'onsets exactly on the grid',
  'unspread-chords': 'chords struck at one instant',
  'same-velocities': 'velocities repeated',
  'same-lengths': 'lengths repeated',
  'no-dynamics': 'bars without a dynamics controller',
};

/** A brief in a line for each part, one for the key, and one or four for each inspection; '' where nothing sounds. */
export function briefText({ parts, key, remarks }: Brief): string {
  if (parts.length === 0) return '';
  const told = parts.slice(0, mostParts).map(({ part, notes, mechanical }) => {
    const heard = mechanical.map(({ measure, share }) => `${percent(share)} ${words[measure]}`);
    return `${partHeading(part)}: ${plural(notes, 'note')}; ${heard.slice(0, 2).join(', ') || 'nothing sounds mechanical'}`;
  });
  const more = parts.length - told.length;
  return [
    ...told,
    ...(more > 0 ? [`… and ${plural(more, 'more part')}, less mechanical`] : []),
    ...(key ? [`Key: ${key.name}, ${percent(key.share)} of the time`] : []),
    ...remarks.flatMap(({ inspection, count, worst }) => [
      `${inspection}: ${plural(count, 'remark')}`,
      ...worst.map((remark) => `  ${where(remark)}${shortened(remark.says)}`),
    ]),
  ].join('\n');
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}

function where({ from, to }: InspectionRemark): string {
  return typeof from === 'number' ? `${formatBars([{ from, to: to ?? from }])}: ` : '';
}

/** A remark in one line. */
function shortened(says: string): string {
  const letters = [...escapeText(says)];
  return letters.length <= mostLetters ? letters.join('') : `${letters.slice(0, mostLetters - 1).join('')}…`;
}

const mostLetters = 100;

/** The same as plain data; all parts. */
export function briefJson({ parts, key, remarks }: Brief): object {
  return {
    parts: parts.map(({ part, notes, mechanical }) => ({
      track: part.track,
      name: part.trackName,
      channel: part.channel + 1,
      notes,
      mechanical,
    })),
    key,
    remarks,
  };
}
