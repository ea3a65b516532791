import { type Diagnostic, diagnostic } from '../diagnostics/index.js';
import { isDynamicMark } from '../dynamics/index.js';
import { readMarks } from '../map/index.js';
import { soundMeaning } from '../meaning/index.js';
import { musicPlace } from '../midi/index.js';
import { sheetOf } from './collect.js';
import { type NotePlaying, type ScoreRemark, writeMusicXml } from './copyist/index.js';
import { countsOf } from './counts.js';
import type { DrawnSheet } from './draw.js';
import { writtenScore } from './notate/index.js';
import { noteId } from './part.js';
import { scoreOf } from './score.js';
import type { SheetJob, SheetTask } from './task.js';
import type { Sheet } from './types.js';

/**
 * The same music as MusicXML for a copyist: articulations as notation, dynamics as they are marked in the music. What a
 * library is sent, and what is remarked upon, stays in the page.
 */
export async function copyistSheet(task: SheetTask): Promise<DrawnSheet> {
  const sheet = sheetOf(task);
  const score = scoreOf(sheet);
  const plain = { ...score, staves: score.staves.map((staff) => ({ ...staff, words: [] })) };
  const bases = task.jobs.filter(({ layer }) => layer === undefined);
  const { bytes, diagnostics } = writeMusicXml(plain, {
    title: task.title,
    playing: new Map(bases.flatMap(playingOf)),
    dynamics: new Map(bases.flatMap((job, part) => dynamicsOf(task, job, sheet.parts[part]?.notes ?? []))),
  });
  return {
    content: new TextDecoder().decode(bytes),
    diagnostics: diagnostics.map((remark) => told(remark, sheet)),
    parts: sheet.parts.length,
    ...countsOf(sheet),
    bars: writtenScore(plain).measures.length,
  };
}

function playingOf({ compiled: { decisions, map } }: SheetJob, part: number): [string, NotePlaying][] {
  return decisions.map(({ note, articulation }, index) => {
    const sound = map.articulations.get(articulation);
    const meaning = sound && soundMeaning(sound, note.marks);
    return [noteId(part, index), { marks: [...note.marks], ...(meaning ? { meaning } : {}) }];
  });
}

/** The dynamics that are marked in a part's track, each at the first note from there on; of several the last. */
function dynamicsOf(
  { song }: SheetTask,
  { compiled: { part, map } }: SheetJob,
  notes: Sheet['parts'][number]['notes'],
): [string, string][] {
  const track = song.tracks[part.track - 1];
  if (!track) return [];
  return readMarks(song, track, (name) => map.articulations.has(name)).flatMap((mark): [string, string][] => {
    if (mark.kind !== 'unknown' || !isDynamicMark(mark.name)) return [];
    const at = notes.find(({ tick }) => tick >= mark.tick);
    return at ? [[at.id, spelled.get(mark.name) ?? mark.name]] : [];
  });
}

/** Hairpins stand as words. */
const spelled: ReadonlyMap<string, string> = new Map([
  ['<', 'cresc.'],
  ['>', 'dim.'],
]);

function told({ code, part, tick, message, hint }: ScoreRemark, { parts, source, clock }: Sheet): Diagnostic {
  const { track = 1, name = '' } = parts[part] ?? {};
  return diagnostic(
    code,
    musicPlace({ file: source, part: { track, trackName: name }, clock }, tick),
    message,
    hint,
  );
}
