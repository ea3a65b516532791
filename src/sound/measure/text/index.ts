// What a measurement says to people, as text for a terminal.
import { escapeText, plural, spellPitch } from '../keyslip.js';
import type { MeasuredArticulation, MeasureResult, StepCondition } from '../result.js';
import { bar, rangeLine } from './plot.js';
import { columns } from './table.js';

type MiddleC = 3 | 4 | 5;

/**
 * The whole result for a terminal: tables, small plots, and what is not certain. Names are made safe to show.
 *
 * @param middleC the octave number that the map prints for MIDI note 60
 */
export function measureText(result: MeasureResult, middleC: MiddleC): string {
  const parts = [
    bounceLines(result),
    speaksLines(result, middleC),
    levelLines(result),
    velocityLines(result),
    placeLines(result),
    silentLines(result, middleC),
    doubtLines(result),
  ];
  return `${parts
    .filter(({ length }) => length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
}

function bounceLines({ bounce }: MeasureResult): readonly string[] {
  const { sampleRate, bits, encoding, startSeconds, driftPpm, clicks, noise, plan } = bounce;
  const kind = encoding === 'float' ? 'floating point' : 'bits';
  const how = [plan.quick ? 'quick' : '', plan.room ? 'room' : ''].filter((word) => word !== '').join(', ');
  const where =
    clicks === 'none'
      ? 'no clicks'
      : `bar 1 at ${startSeconds.toFixed(4)} s${clicks === 'both' ? `, drift ${fixed(driftPpm, 1)} parts in a million` : ''}`;
  return [
    `bounce: ${sampleRate} Hz, ${bits} ${kind}, ${where}, noise ${noise === null ? 'none' : `${fixed(noise, 1)} LUFS`}${how === '' ? '' : ` (${how})`}`,
  ];
}

function speaksLines({ articulations }: MeasureResult, middleC: MiddleC): readonly string[] {
  const entries = Object.entries(articulations);
  const longest = Math.max(1, ...entries.map(([, { crossingsMs }]) => crossingsMs?.at6 ?? 0));
  const rows = entries.flatMap(([name, one]) => [
    [
      escapeText(name),
      ms(one.speaksAfterMs),
      plusMinus(one.uncertaintyMs),
      `${one.used}`,
      `${one.rejected}`,
      lasts(one),
    ],
    ...(one.steps ?? []).map(({ when, isMs, spreadMs, used }) => {
      return [`  ${conditionText(when, middleC)}`, ms(isMs), plusMinus(spreadMs / 2), `${used}`];
    }),
  ]);
  const plots = entries.flatMap(([name, { speaksAfterMs, crossingsMs }]) =>
    speaksAfterMs === null || !crossingsMs
      ? []
      : [[escapeText(name), rangeLine(crossingsMs.at15, speaksAfterMs, crossingsMs.at6, longest)]],
  );
  return [
    ...columns([['speaks after', 'time', '', 'used', 'rejected', 'lasts'], ...rows]),
    ...(plots.length === 0
      ? []
      : ['', `onset: | 15 dB, o 12 dB, | 6 dB below the loudest; 0 to ${ms(longest)}`]),
    ...plotted(plots),
  ];
}

/** A step's condition in words. */
export function conditionText(when: StepCondition, middleC: MiddleC): string {
  if (!when) return 'all other notes';
  if ('overlaps-previous' in when) return 'joined to the note before';
  const isPitch = 'pitch' in when;
  const { from, to } = isPitch ? when.pitch : when.velocity;
  const say = (value: number) => (isPitch ? spellPitch(value, middleC) : `${value}`);
  const bounds = [from === undefined ? '' : `from ${say(from)}`, to === undefined ? '' : `to ${say(to)}`];
  return `${isPitch ? 'pitch' : 'velocity'} ${bounds.filter((text) => text !== '').join(' ')}`;
}

function lasts({ length }: MeasuredArticulation): string {
  if (!length) return '';
  if (length.followsKey) return 'as held';
  return `${ms(length.ms)}${length.rings ? ', rings' : ''}`;
}

function levelLines({ levels, marks, referenceLevel }: MeasureResult): readonly string[] {
  const [controller] = levels;
  const reference = referenceLevel === null ? [] : [`reference level (mf): ${fixed(referenceLevel, 1)} LUFS`];
  if (!controller) return reference;
  const bounds = boundsOf(levels);
  return [
    `controller ${controller.controller}: value, loudness in LUFS`,
    ...plotted(levels.map(({ value, dB }) => [`${value}`.padStart(3), fixed(dB, 1), bar(dB, ...bounds)])),
    ...(marks.length === 0
      ? []
      : [
          `levels: ${marks.map(({ mark, value, isReached }) => `${mark} ${value}${isReached ? '' : ' (not reached)'}`).join(', ')}`,
        ]),
    ...reference,
  ];
}

function velocityLines({ velocities }: MeasureResult): readonly string[] {
  if (velocities.length === 0) return [];
  const bounds = boundsOf(velocities);
  return [
    'velocity, loudness in LUFS',
    ...plotted(
      velocities.map(({ articulation, velocity, dB }) => [
        escapeText(articulation),
        `${velocity}`,
        fixed(dB, 1),
        bar(dB, ...bounds),
      ]),
    ),
  ];
}

function placeLines({ seat, width, pan }: MeasureResult): readonly string[] {
  if (seat === null || width === null) return [];
  const side = seat < -0.05 ? 'left' : seat > 0.05 ? 'right' : 'the middle';
  const answers = pan.map(({ value, dB }) => `${value} ${fixed(dB, 1)} dB`).join(', ');
  return [
    `seat ${fixed(seat, 2)} (${side}), width ${fixed(width, 2)}`,
    ...(answers === '' ? [] : [`controller 10, right less left: ${answers}`]),
  ];
}

function silentLines({ articulations }: MeasureResult, middleC: MiddleC): readonly string[] {
  return Object.entries(articulations).flatMap(([name, { silentKeys }]) => {
    if (silentKeys.length === 0) return [];
    const keys = silentKeys.map((key) => spellPitch(key, middleC)).join(' ');
    return [`${escapeText(name)}: ${plural(silentKeys.length, 'silent key')}: ${keys}`];
  });
}

function doubtLines({ doubts }: MeasureResult): readonly string[] {
  if (doubts.length === 0) return [];
  return ['not certain:', ...doubts.map(({ about, text }) => `  ${escapeText(about)}: ${escapeText(text)}`)];
}

/** The last cell of each row is a plot, and stands left. */
function plotted(rows: readonly (readonly string[])[]): readonly string[] {
  const heads = columns(rows.map((row) => [...row.slice(0, -1), '']));
  const widest = Math.max(0, ...heads.map(({ length }) => length));
  return rows.map((row, index) => `  ${(heads[index] ?? '').padEnd(widest)}  ${row.at(-1) ?? ''}`.trimEnd());
}

function boundsOf(levels: readonly { readonly dB: number }[]): readonly [number, number] {
  const all = levels.map(({ dB }) => dB);
  return [Math.min(...all) - 3, Math.max(...all)];
}

function ms(value: number | null): string {
  return value === null ? '-' : `${fixed(value, value < 10 && value > -10 ? 1 : 0)} ms`;
}

function plusMinus(value: number | null): string {
  return value === null ? '' : `± ${fixed(value, value < 10 ? 1 : 0)}`;
}

/** A number without the minus of a nought. */
function fixed(value: number, digits: number): string {
  return (Math.round(value * 10 ** digits) / 10 ** digits || 0).toFixed(digits);
}
