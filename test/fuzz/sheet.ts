import { partsOf } from '../../src/compile/analyse/index.js';
import { compileParts } from '../../src/compile/index.js';
import { readMidi } from '../../src/midi/read/index.js';
import { sheetOf } from '../../src/sheet/collect.js';
import { type Engraver, makeEngraver } from '../../src/sheet/engrave/index.js';
import { noSheet } from '../../src/sheet/no-sheet.js';
import { notate } from '../../src/sheet/notate/index.js';
import { pageOf } from '../../src/sheet/page/index.js';
import { scoreOf } from '../../src/sheet/score.js';
import { mutateBytes, pick } from './mutate.js';
import { mapFrom, refused, type Seeds, shown } from './outcome.js';

/** Sheets of more bars take longer than a case may. */
const maxBars = 400;

let engraver: Promise<Engraver> | undefined;

/** The sheet of a mutated MIDI file: every note has its head, and nothing of the file is markup. */
export async function sheetCase(seeds: Seeds, random: () => number): Promise<string> {
  engraver ??= makeEngraver();
  const bytes = mutateBytes(pick(random, seeds.midi), pick(random, seeds.midi), random);
  const { value: song, diagnostics } = readMidi(bytes, 'fuzz.mid');
  if (!song) return refused(diagnostics);
  const map = mapFrom(pick(random, seeds.maps));
  const jobs = song.tracks
    .flatMap(partsOf)
    .slice(0, 3)
    .map((part) => ({ part, map }));
  const { parts, tracks, diagnostics: found } = compileParts(song, jobs);
  const named = parts.map((compiled) => ({ compiled, name: compiled.part.trackName }));
  const task = { title: 'Fuzz', song, tracks, jobs: named, diagnostics: found };
  const none = noSheet(task);
  shown(none);
  if (none.length > 0) return refused(none);
  const sheet = sheetOf(task);
  const last = sheet.clock.position(sheet.endTick)?.bar ?? 0;
  if (last * parts.length > maxBars || parts.length === 0) return 'too long, or empty';
  const notation = notate(scoreOf(sheet));
  const page = pageOf(sheet, notation, (await engraver)(notation.mei));
  const notes = sheet.parts.reduce((sum, part) => sum + part.notes.length, 0);
  const heads = page.match(/class="head"/gu)?.length ?? 0;
  if (heads !== notes) throw new Error(`${notes} notes have ${heads} heads`);
  const known =
    /<\/?(?:!doctype|html|head|meta|title|style|body|header|h1|h2|p|main|details|summary|dl|div|dt|dd|svg|defs|g|path|polygon|polyline|use|i|line|rect|ellipse|circle|text|tspan|section|figure|figcaption|ul|li|a|span|table|thead|tbody|tr|th|td|aside|script|nav)\b/giu;
  const music = page.replace(/<(style|script)\b[\s\S]*?<\/\1>/gu, '').replace(known, '');
  const alien = music.indexOf('<');
  if (alien >= 0) throw new Error(`an alien element: ${music.slice(alien, alien + 60)}`);
  return 'drawn';
}
