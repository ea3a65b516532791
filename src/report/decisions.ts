import { type CompiledPart, type Players, placesOf, type SentNote } from '../compile/index.js';
import type { TimingOptions } from '../timing/index.js';

/** One note of the report. */
export interface ReportNote {
  readonly tick: number;
  /** The bar and the beat that the note belongs to, also where it was played early or late. */
  readonly bar: number | null;
  readonly beat: number | null;
  readonly pitch: number;
  readonly velocity: number;
  readonly heldMs: number;
  readonly articulation: string;
  /** The rule's index from 0, or 'marked'. */
  readonly rule: number | 'marked';
  /** The plain rule's index, where steadiness kept the note with its neighbours instead. */
  readonly insteadOf?: number;
  /** null where nothing had to be sent. */
  readonly switchTick: number | null;
  /** Only where timing options moved the note: where it stands in the output. */
  readonly movedTo?: number;
  /** Only where the note goes out on another key than was played (the articulation's own, or transposed): that MIDI note. */
  readonly sentPitch?: number;
  /** Only where the note goes out with another velocity than it was played with, 1–127. */
  readonly sentVelocity?: number;
  /** Only in a part that is divided: how many of its players play the note. */
  readonly players?: Players;
  /** Only where the note goes out on another channel than the part's, 1–16. */
  readonly sentChannel?: number;
}

/** What was decided, note by note: the shape of `--report` and `explain --json`. */
export interface Report {
  readonly input: string;
  /** The map's path; with several maps a list, one for each part. */
  readonly map: string | readonly string[];
  /** Only where timing options were given: what they were, the seed among them. */
  readonly timing?: TimingOptions;
  readonly parts: readonly {
    readonly track: number;
    readonly name: string;
    /** 1–16. */
    readonly channel: number;
    readonly notes: readonly ReportNote[];
  }[];
}

/** The report of compiled parts. Times are rounded to a thousandth of a millisecond. */
export function report(input: string, parts: readonly CompiledPart[]): Report {
  const files = parts.map(({ map }) => map.file);
  const [first = ''] = files;
  const timing = parts.find((part) => part.timing)?.timing;
  return {
    input,
    map: files.every((file) => file === first) ? first : files,
    ...(timing ? { timing } : {}),
    parts: parts.map((part) => ({
      track: part.part.track,
      name: part.part.trackName,
      channel: part.part.channel + 1,
      notes: reportNotes(part),
    })),
  };
}

function reportNotes({
  part,
  line,
  decisions,
  retimed,
  switched,
  playersOf,
}: CompiledPart): readonly ReportNote[] {
  const places = placesOf(line);
  return decisions.map(({ note, articulation, rule, insteadOf }, index) => {
    const position = places[note.onset];
    const tick = retimed.decisions[index]?.note.tick ?? note.tick;
    return {
      tick: note.tick,
      bar: position?.bar ?? null,
      beat: position?.beat ?? null,
      pitch: note.pitch,
      velocity: note.velocity,
      heldMs: Math.round(note.held.ms * 1000) / 1000,
      articulation,
      rule,
      ...(insteadOf === undefined ? {} : { insteadOf }),
      switchTick: switched.switchTicks[index] ?? null,
      ...(tick === note.tick ? {} : { movedTo: tick }),
      ...(playersOf ? { players: playersOf(note) } : {}),
      ...sentOtherwise(note, part.channel, switched.sent.at(index)),
    };
  });
}

function sentOtherwise(
  { pitch, velocity }: Pick<ReportNote, 'pitch' | 'velocity'>,
  channel: number,
  sent: SentNote | undefined,
): Pick<ReportNote, 'sentPitch' | 'sentVelocity' | 'sentChannel'> {
  if (!sent) return {};
  return {
    ...(sent.pitch === pitch ? {} : { sentPitch: sent.pitch }),
    ...(sent.velocity === velocity ? {} : { sentVelocity: sent.velocity }),
    ...(sent.channel === channel ? {} : { sentChannel: sent.channel + 1 }),
  };
}
