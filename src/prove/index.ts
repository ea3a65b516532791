// A model of a library that plays a compiled file; it knows nothing of how the file was made.
import type { Song } from '../midi/index.js';
import { compareSongs } from './against/index.js';
import { barsOf } from './bars.js';
import { type BarRange, barsIn, wrongFromBars } from './dependents.js';
import { type ProvePart, type Stage, stageOf } from './part.js';
import { type Hearing, hearPart } from './playback.js';
import { type Cure, curesFor } from './restate-suggestions.js';
import { hearingRules } from './rules/index.js';
import { complainer, inOrderOfTime, keyName, type Violation } from './violations.js';

export { type BarRange, barsIn } from './dependents.js';
export { heardIn } from './heard.js';
export { type MeantNote, MeantNotes } from './meant-notes.js';
export type { ProvePart } from './part.js';
export type { Cure, RestateSetting } from './restate-suggestions.js';
export { ownChannel, stripSwitches } from './strip.js';
export { type Violation, type ViolationKind, violationKinds } from './violations.js';

/** A compiled file, what it was compiled from if that is at hand, and what each part is meant to sound with. */
export interface ProveTask {
  readonly output: Song;
  /** The music that must be in the output, unmoved. Where timing was changed on purpose: the music with that timing. */
  readonly input?: Song;
  readonly parts: readonly ProvePart[];
}

/** What was found of one part. */
export interface PartProof {
  /** Counted from 1 in file order. */
  readonly track: number;
  readonly trackName: string;
  /** 0–15. */
  readonly channel: number;
  readonly library: string;
  readonly instrument: string;
  /** How many notes were heard and compared with what is meant. */
  readonly notes: number;
  /** How many of them sound wrong when the file is played from its beginning. */
  readonly wrongNotes: number;
  /** How many bars reach up to the last note; null where the file has no bars. */
  readonly bars: number | null;
  /** Bars from which playback gives wrong notes until the next switches. */
  readonly wrongFrom: readonly BarRange[];
  /** Settings that would cure that, the cheapest first. */
  readonly cures: readonly Cure[];
}

/** What was found. The file is proved where there are no violations; playback from a bar is told beside. */
export interface Proof {
  readonly file: string;
  /** Whether the input was there to compare with. */
  readonly isCompared: boolean;
  readonly notes: number;
  /** In order of time. */
  readonly violations: readonly Violation[];
  readonly parts: readonly PartProof[];
}

/**
 * Plays a compiled file to a model of the library and says what is wrong with it. Takes no note of how the file came to
 * be: only the events count, in file order.
 */
export function prove({ output, input, parts }: ProveTask): Proof {
  const stages = parts.flatMap((part) => stageOf(output, part) ?? []);
  const comparison = input && compareSongs(input, output, stages);
  const hearings = stages.map((stage) => hearPart(stage, comparison?.roles.get(stage.part.track)));
  const violations = hearings.flatMap((hearing) => hearingRules.flatMap((rule) => rule(hearing)));
  // What the comparison has told is not told again as notes that are not there, or should not be.
  const isKept = !comparison?.violations.length;
  return {
    file: output.file,
    isCompared: comparison !== undefined,
    notes: hearings.reduce((sum, { notes, unmeant }) => sum + notes.length - unmeant.length, 0),
    violations: inOrderOfTime([
      ...(comparison?.violations ?? []),
      ...violations,
      ...parts.filter((part) => !output.tracks[part.part.track - 1]).map(lostTrack),
      ...(isKept ? hearings.flatMap((hearing) => unmatched(hearing, stages)) : []),
    ]),
    parts: hearings.map(partProof),
  };
}

/** Meant notes that were not heard; and, if no other part may have put them there, notes that are not meant. */
function unmatched(
  { stage, notes, unheard, unmeant }: Hearing,
  stages: readonly Stage[],
): readonly Violation[] {
  const { complain, map, part } = stage;
  const others = stages.filter((other) => other !== stage && other.part.track === part.track);
  const isOfOther = (note: number) => others.some(({ channels }) => channels.has(notes.channel(note)));
  return [
    ...unheard.map(({ tick, pitch }) =>
      complain(
        'missing-event',
        { tick, channel: part.channel, pitch },
        `the note ${keyName(pitch, map.middleC)} is missing`,
      ),
    ),
    ...unmeant
      .filter((note) => !isOfOther(note))
      .map((note) =>
        complain(
          'added-event',
          notes.spot(note),
          `the note ${keyName(notes.pitch(note), map.middleC)} is not one of the part's`,
        ),
      ),
  ];
}

function lostTrack({ part }: ProvePart): Violation {
  const clock = {
    ticksPerWhole: null,
    ms: () => 0,
    tickAt: () => 0,
    position: () => null,
    barStart: () => null,
  };
  return complainer(part.track, clock)('changed-file', { tick: 0 }, `there is no track ${part.track}`);
}

function partProof({ stage, notes, unmeant }: Hearing): PartProof {
  const { part, map, clock } = stage;
  const bars = barsOf(notes, clock);
  const wrongFrom = wrongFromBars(notes, bars, clock);
  return {
    track: part.track,
    trackName: part.trackName,
    channel: part.channel,
    library: map.library,
    instrument: map.instrument,
    notes: notes.length - unmeant.length,
    wrongNotes: notes.wrong.filter((note) => notes.isMeant(note)).length,
    bars: clock.position(notes.length > 0 ? notes.tick(notes.length - 1) : 0)?.bar ?? null,
    wrongFrom,
    cures: curesFor(notes, bars, barsIn(wrongFrom), stage),
  };
}
