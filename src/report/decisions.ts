import { type CompiledPart, onsetOf, type Players, placesOf, type SentNote } from '../compile/index.js';
import { noteTick } from '../midi/index.js';
import type { TimingOptions } from '../timing/index.js';
import type { Within } from './explanation.js';

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
export interface Report<Notes extends Iterable<ReportNote> = readonly ReportNote[]> {
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
    readonly notes: Notes;
  }[];
}

/** A part to be told of. */
export interface ReportedPart {
  readonly part: CompiledPart;
  /** Which of its notes. */
  readonly within?: Within | undefined;
}

/** The report of compiled parts. Times are rounded to a thousandth of a millisecond. */
export function report(input: string, parts: readonly CompiledPart[]): Report {
  const whole = reportInPieces(
    input,
    parts.map((part) => ({ part })),
  );
  return { ...whole, parts: whole.parts.map((part) => ({ ...part, notes: [...part.notes] })) };
}

/**
 * The same with notes that are made when they are come to: 200,000 of them are 50 MB of text.
 *
 * @param asked the parts, and which of their notes are told; all are, if absent
 */
export function reportInPieces(input: string, asked: readonly ReportedPart[]): Report<Iterable<ReportNote>> {
  const parts = asked.map(({ part }) => part);
  const files = parts.map(({ map }) => map.file);
  const [first = ''] = files;
  const timing = parts.find((part) => part.timing)?.timing;
  return {
    input,
    map: files.every((file) => file === first) ? first : files,
    ...(timing ? { timing } : {}),
    parts: asked.map(({ part, within }) => ({
      track: part.part.track,
      name: part.part.trackName,
      channel: part.part.channel + 1,
      notes: { [Symbol.iterator]: () => reportNotes(part, within) },
    })),
  };
}

/** The notes of a part, each made when it is come to. */
function* reportNotes(
  { part, line, decided, retimed, switched, playersOf }: CompiledPart,
  within: Within = () => true,
): Generator<ReportNote> {
  const placeOf = placesOf(line);
  for (let row = 0; row < decided.length; row++) {
    const position = placeOf(onsetOf(decided, row));
    if (!within(position)) continue;
    const { note, articulation, rule, insteadOf } = decided.decision(row);
    const tick = noteTick(retimed.decided, row);
    yield {
      tick: note.tick,
      bar: position?.bar ?? null,
      beat: position?.beat ?? null,
      pitch: note.pitch,
      velocity: note.velocity,
      heldMs: Math.round(note.held.ms * 1000) / 1000,
      articulation,
      rule,
      ...(insteadOf === undefined ? {} : { insteadOf }),
      switchTick: switched.switchTickOf(row),
      ...(tick === note.tick ? {} : { movedTo: tick }),
      ...(playersOf ? { players: playersOf(note) } : {}),
      ...sentOtherwise(note, part.channel, switched.sent.at(row)),
    };
  }
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
