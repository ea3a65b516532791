import { byArticulation } from '../compile/index.js';
import { type Diagnostic, diagnostic } from '../diagnostics/index.js';
import { dynamicWord } from '../dynamics/index.js';
import { readMarks, soundMeaning } from '../map/index.js';
import { musicPlace } from '../midi/index.js';
import { sheetOf } from './collect.js';
import { type NotePlaying, type ScoreRemark, writeMusicXml } from './copyist/index.js';
import { countsOf } from './counts.js';
import type { DrawnSheet } from './draw.js';
import { writtenScore } from './notate/index.js';
import { noteId } from './part.js';
import { scoreOf } from './score.js';
import { type SheetJob, type SheetTask, staffJobs } from './task.js';
import type { Sheet } from './types.js';

/**
 * The same music as MusicXML for a copyist: articulations as notation, dynamics as they are marked in the music. What a
 * library is sent, and what is remarked upon, stays in the page.
 */
export async function copyistSheet(task: SheetTask): Promise<DrawnSheet> {
  const sheet = sheetOf(task);
  const score = scoreOf(sheet);
  const bases = staffJobs(task);
  const loudness = bases.map((job, part) => loudnessOf(task, job, sheet.parts[part]?.notes ?? []));
  const staves = score.staves.map((staff, part) => ({
    ...staff,
    words: (loudness[part] ?? []).filter(({ isSign }) => !isSign),
  }));
  const plain = { ...score, staves };
  const { bytes, diagnostics } = writeMusicXml(plain, {
    title: task.title,
    playing: new Map(bases.flatMap(playingOf)),
    dynamics: new Map(
      loudness.flat().flatMap(({ id, text, isSign }): [string, string][] => (isSign ? [[id, text]] : [])),
    ),
  });
  return {
    content: new TextDecoder().decode(bytes),
    diagnostics: diagnostics.map((remark) => told(remark, sheet)),
    parts: sheet.parts.length,
    ...countsOf(sheet),
    bars: writtenScore(plain, false).measures.length,
  };
}

function playingOf({ compiled: { decided, map } }: SheetJob, part: number): [string, NotePlaying][] {
  const soundOf = byArticulation(decided, (name) => map.articulations.get(name));
  return Array.from({ length: decided.length }, (_, row) => {
    const sound = soundOf(row);
    const { marks } = decided.noteOf(row);
    const meaning = sound && soundMeaning(sound, marks);
    return [noteId(part, row), { marks: [...marks], ...(meaning ? { meaning } : {}) }];
  });
}

/** A mark of loudness at a note: a sign, or words. */
interface Loudness {
  readonly id: string;
  readonly text: string;
  readonly isSign: boolean;
}

/** Crescendi and diminuendi stand as words. */
const spelled: ReadonlyMap<string, string> = new Map([
  ['<', 'cresc.'],
  ['>', 'dim.'],
]);

/** The dynamics that are marked in a part's track, each at the first note from there on; of several signs the last counts. */
function loudnessOf(
  { song }: SheetTask,
  { compiled: { part, map } }: SheetJob,
  notes: Sheet['parts'][number]['notes'],
): readonly Loudness[] {
  const track = song.tracks[part.track - 1];
  if (!track) return [];
  return readMarks(song, track, (name) => map.articulations.has(name)).flatMap((mark): Loudness[] => {
    const word = mark.kind === 'unknown' ? dynamicWord(mark.name) : undefined;
    const at = notes.find(({ tick }) => tick >= mark.tick);
    if (mark.kind !== 'unknown' || !word || !at) return [];
    return [{ id: at.id, text: spelled.get(mark.name) ?? mark.name, isSign: word.kind === 'level' }];
  });
}

function told({ code, part, tick, message, hint }: ScoreRemark, { parts, source, clock }: Sheet): Diagnostic {
  const { track = 1, name = '' } = parts[part] ?? {};
  return diagnostic(
    code,
    musicPlace({ file: source, part: { track, trackName: name }, clock }, tick),
    message,
    hint,
  );
}
