import { type Diagnostic, diagnostic } from '../diagnostics/index.js';
import { clockOf } from '../midi/index.js';
import { roomFor } from './notate/index.js';
import { type SheetTask, staffJobs } from './task.js';

/** More bars than this, over all staves, are not written out: the page would be of no use (some 80 MB), and take minutes. */
const maxBars = 100_000;

/** no-sheet: the music has no bars, its tracks do not sound together, or it is too long to be written down. */
export function noSheet(task: SheetTask): readonly Diagnostic[] {
  const { song, jobs } = task;
  const say = (message: string, hint: string): readonly Diagnostic[] => [
    diagnostic('no-sheet', { kind: 'file', file: song.file }, message, hint),
  ];
  if (song.division.kind === 'smpte')
    return say(
      'the file counts SMPTE frames, which know no bars to write the music in',
      'export it with ticks for each quarter note',
    );
  const tracks = new Set(jobs.map(({ compiled }) => compiled.part.track));
  if (song.format === 2 && tracks.size > 1)
    return say(
      'the file is of format 2, whose tracks are pieces of their own and do not sound together',
      '--track NAME writes the sheet of one of them',
    );
  const lines = staffJobs(task).map(({ compiled }) => compiled.line);
  const staves = lines.length;
  const clock = clockOf(song, jobs[0]?.compiled.part.track ?? 1);
  const bars = roomFor({ clock, staves: lines, ticks: [] }, lastBar(jobs, clock)).length;
  if (bars * staves <= maxBars) return [];
  return say(
    `the music has ${bars} bars to write out for each of ${staves} parts; a sheet has room for ${Math.floor(maxBars / staves)}`,
    'take a part of the music, or fewer parts at a time',
  );
}

function lastBar(jobs: SheetTask['jobs'], clock: ReturnType<typeof clockOf>): number {
  const last = jobs.reduce(
    (latest, { compiled }) =>
      compiled.line.notes.reduce((most, { endTick }) => Math.max(most, endTick), latest),
    0,
  );
  return clock.position(last)?.bar ?? 0;
}
