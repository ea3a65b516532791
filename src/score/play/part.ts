import type { Findings } from '../diagnostic.js';
import type { ScoreNote, ScorePart } from '../model.js';
import { placeGraces } from './grace.js';
import { releaseTick } from './lengths.js';
import { levelPoints, levelReader, levelTexts, type PlacedSign } from './levels.js';
import { inOrder, noteTexts, signTexts } from './marks.js';
import { joinTies, type Sounding, soundingNotes } from './notes.js';
import { playOrnaments } from './ornaments/index.js';
import type { PlayedBar, PlayedNote, PlayedPart } from './performance.js';
import { playedSigns } from './rewind.js';
import type { Swinger } from './swing.js';
import { suddenAt, velocityOf } from './velocity.js';

/** What all parts of a performance share. */
export interface Stage {
  readonly ppq: number;
  readonly bars: readonly PlayedBar[];
  readonly endTick: number;
  readonly swing: Swinger;
  readonly found: Findings;
  ticksPerSecondAt(tick: number): number;
  /** How many notes ornaments may still have. */
  readonly room: { left: number };
}

/** Plays one part. */
export function playPart(part: ScorePart, channel: number, stage: Stage): PlayedPart {
  const { ppq, bars, endTick } = stage;
  const told = new Set<string>();
  const onOpen = (note: ScoreNote) => {
    if (told.has(note.id)) return;
    told.add(note.id);
    const hint = 'tie it to a note of its pitch that follows at once';
    stage.found.warning('score-unpaired', note, 'a tie leads nowhere', hint);
  };
  const sounding = joinTies(soundingNotes(part.notes, bars, stage.swing), onOpen);
  placeGraces(sounding, ppq);
  const signs = playedSigns(part.signs, bars);
  const said = signs.flatMap((sign): PlacedSign[] => (sign.kind === 'sign' ? [sign] : []));
  const points = levelPoints(said, endTick, ppq);
  const notes = playedNotes(sounding, said, stage, levelReader(points));
  const lasting = inOrder([...signTexts(signs), ...levelTexts(points, said)]);
  return {
    id: part.id,
    name: part.name,
    channel,
    notes,
    texts: inOrder([...lasting, ...noteTexts(notes)]),
    lasting,
    controllers: said.flatMap(({ tick, item }) =>
      item.kind === 'controller' ? [{ tick, number: item.number, value: item.value }] : [],
    ),
  };
}

function playedNotes(
  sounding: readonly Sounding[],
  signs: readonly PlacedSign[],
  { ppq, bars, ticksPerSecondAt, room }: Stage,
  levelAt: (tick: number) => number,
): readonly PlayedNote[] {
  const sudden = suddenAt(signs);
  const written = ({ note, bar }: Sounding) => (bars[bar]?.tick ?? 0) + note.offset;
  // loudness is that of the place where a note is written, grace notes or not
  const inOrderOfPlace = [...sounding].sort((a, b) => written(a) - written(b));
  const spanOf = (one: Sounding) => {
    const tick = Math.max(0, one.tick + one.note.attack);
    return { tick, endTick: Math.max(tick + 1, releaseTick(one, ppq)) };
  };
  const ornaments = playOrnaments(inOrderOfPlace, spanOf, ticksPerSecondAt, room);
  const notes = inOrderOfPlace.map((one, index): PlayedNote => {
    const { note, bar } = one;
    const place = written(one);
    return {
      id: note.id,
      bar,
      ...spanOf(one),
      pitch: note.pitch,
      velocity: velocityOf(one, levelAt(place), note.grace ? undefined : sudden.get(place)),
      voice: note.voice,
      staff: note.staff,
      isGrace: note.grace !== null,
      isSlurred: one.isSlurred,
      marks: note.marks,
      ornament: ornaments[index] ?? null,
    };
  });
  return notes.sort((a, b) => a.tick - b.tick || a.pitch - b.pitch);
}
