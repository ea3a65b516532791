import { escapeText, plural } from '../diagnostics/index.js';
import { type Duration, formatBars, partHeading } from '../midi/index.js';
import {
  type BarRange,
  barsIn,
  type PartProof,
  type Proof,
  type RestateSetting,
  type Violation,
  type ViolationKind,
} from '../prove/index.js';

/** The proof as JSON: channels as they are counted in maps, 1–16. */
export interface ProofReport {
  /** The file that was played to the model. */
  readonly input: string;
  readonly proved: boolean;
  /** Whether it was compared with the input. */
  readonly compared: boolean;
  readonly notes: number;
  readonly violations: readonly {
    readonly kind: ViolationKind;
    readonly message: string;
    readonly track: number | null;
    readonly channel: number | null;
    readonly tick: number;
    readonly bar: number | null;
    readonly beat: number | null;
    readonly pitch: number | null;
  }[];
  readonly parts: readonly {
    readonly track: number;
    readonly name: string;
    readonly channel: number;
    readonly library: string;
    readonly instrument: string;
    readonly notes: number;
    readonly wrongNotes: number;
    readonly bars: number | null;
    readonly wrongFrom: readonly BarRange[];
    /** As a map's `restate` has them. */
    readonly cures: readonly {
      readonly restate: { readonly 'every-bars'?: number; readonly 'after-rest'?: string };
      readonly moreSwitches: number;
      readonly wrongBars: number;
    }[];
  }[];
}

export function proofJson({ file, isCompared, notes, violations, parts }: Proof): ProofReport {
  return {
    input: file,
    proved: violations.length === 0,
    compared: isCompared,
    notes,
    violations: violations.map((violation) => ({
      ...violation,
      channel: violation.channel === null ? null : violation.channel + 1,
    })),
    parts: parts.map(({ trackName, channel, cures, ...part }) => ({
      ...part,
      name: trackName,
      channel: channel + 1,
      cures: cures.map(({ setting, ...cure }) => ({ restate: restate(setting), ...cure })),
    })),
  };
}

/** The proof for a musician: counts first, then each violation with its bar and beat, then playback from any bar. */
export function proofText(proof: Proof): string {
  const { file, notes, violations, parts, isCompared } = proof;
  const wrong = parts.reduce((sum, { wrongNotes }) => sum + wrongNotes, 0);
  const lines = [
    `${escapeText(file)}: ${soundsAsMeant(notes, wrong, violations.length > 0)}`,
    isCompared
      ? 'Compared with the input, event by event.'
      : 'Not compared with an input: that nothing of the music is missing or changed is not shown.',
    violations.length === 0
      ? 'Nothing is wrong.'
      : `${plural(violations.length, 'thing is', 'things are')} wrong:`,
    ...violations.map(
      (violation) =>
        `  ${placeOf(violation, parts.length > 1)}  ${escapeText(violation.message)}  [${violation.kind}]`,
    ),
    ...parts.flatMap((part) => ['', ...partText(part)]),
  ];
  return `${lines.join('\n')}\n`;
}

function soundsAsMeant(notes: number, wrong: number, isFaulty: boolean): string {
  if (notes === 0) return 'there are no notes to hear.';
  if (wrong > 0) return `${notes - wrong} of ${plural(notes, 'note')} sound as meant, ${wrong} do not.`;
  if (isFaulty)
    return `of ${plural(notes, 'note')} that ${notes === 1 ? 'was' : 'were'} found, each sounds as meant, but:`;
  return notes === 1 ? 'the only note sounds as meant.' : `all ${notes} notes sound as meant.`;
}

function placeOf({ bar, beat, tick, track }: Violation, isTrackTold: boolean): string {
  if (track === null) return 'the file';
  const place = bar === null || beat === null ? `tick ${tick}` : `${bar}.${beat}`;
  return isTrackTold ? `track ${track}, ${place}` : place;
}

function partText(part: PartProof): readonly string[] {
  const heading = `${partHeading(part)}: ${escapeText(part.library)}, ${escapeText(part.instrument)}`;
  return [heading, ...playbackText(part).map((line) => `  ${line}`)];
}

function playbackText({ bars, wrongFrom, cures }: PartProof): readonly string[] {
  if (bars === null) return ['The file has no bars, so playback from bars is not told.'];
  const wrongBars = barsIn(wrongFrom);
  if (wrongBars === 0) return ['Playback is right from every bar.'];
  return [
    `Playback is right from ${bars - wrongBars} of ${plural(bars, 'bar')}. From the others, until the next switches:`,
    ...stretchLines(stretches(wrongFrom)),
    ...curesText(cures),
  ];
}

/** At most so many stretches of bars are listed; of long music there may be thousands, and the JSON has all. */
const listed = 12;

function stretchLines(all: readonly BarSpan[]): readonly string[] {
  const shown = all.length > listed + 1 ? all.slice(0, listed) : all;
  const [next] = all.slice(shown.length);
  return [
    ...shown.map((stretch) => `  ${stretchText(stretch)} wrong`),
    ...(next
      ? [
          `  and ${all.length - shown.length} more stretches like these, from bar ${next.from} on (--json lists all)`,
        ]
      : []),
  ];
}

/** Neighbouring bars from which notes sound wrong: from how few to how many. */
interface BarSpan {
  readonly from: number;
  readonly to: number;
  readonly fewest: number;
  readonly most: number;
}

function stretches(ranges: readonly BarRange[]): readonly BarSpan[] {
  const found: BarSpan[] = [];
  for (const { from, to, wrongNotes } of ranges) {
    const last = found.at(-1);
    if (last?.to === from - 1)
      found[found.length - 1] = {
        from: last.from,
        to,
        fewest: Math.min(last.fewest, wrongNotes),
        most: Math.max(last.most, wrongNotes),
      };
    else found.push({ from, to, fewest: wrongNotes, most: wrongNotes });
  }
  return found;
}

function stretchText({ from, to, fewest, most }: BarSpan): string {
  const bars = formatBars([{ from, to }]);
  return `${bars}: ${fewest === most ? '' : `${fewest} to `}${plural(most, 'note sounds', 'notes sound')}`;
}

/** At most so many settings are named; the JSON has all. */
const named = 3;

function curesText(cures: PartProof['cures']): readonly string[] {
  const [first] = cures;
  if (!first)
    return [
      'Sending switches again (restate) would not help: what is missed is struck just before its bar. Start a beat earlier.',
    ];
  const heading =
    first.wrongBars === 0
      ? "To cure it, compile with one of these, or write it into the map's switching:"
      : "Sending switches again would help, but not from every bar; compile with one of these, or write it into the map's switching:";
  return [
    heading,
    ...cures.slice(0, named).map(({ setting, moreSwitches, wrongBars }) => {
      const left = wrongBars === 0 ? '' : `, wrong from ${plural(wrongBars, 'bar')}`;
      return `  --restate ${optionText(setting)}  restate: {${settingText(setting)}}  (${plural(moreSwitches, 'more switch', 'more switches')}${left})`;
    }),
  ];
}

function restate({
  everyBars,
  afterRest,
}: RestateSetting): ProofReport['parts'][number]['cures'][number]['restate'] {
  return {
    ...(everyBars === undefined ? {} : { 'every-bars': everyBars }),
    ...(afterRest === undefined ? {} : { 'after-rest': durationText(afterRest) }),
  };
}

function settingText(setting: RestateSetting): string {
  return Object.entries(restate(setting))
    .map(([key, value]) => `${key}: ${value}`)
    .join(', ');
}

/** The setting as the command line has it: a number of bars, or the length of a rest. */
function optionText({ everyBars, afterRest }: RestateSetting): string {
  return afterRest ? durationText(afterRest) : `${everyBars}`;
}

function durationText(duration: Duration): string {
  if (duration.unit === 'whole') return `${duration.numerator}/${duration.denominator}`;
  return duration.ms % 1000 === 0 ? `${duration.ms / 1000}s` : `${duration.ms}ms`;
}
