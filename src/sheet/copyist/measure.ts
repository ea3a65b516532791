import { beamTexts } from './beams.js';
import { harmonyText } from './harmony.js';
import { dynamicText, pieceText, wordsText } from './note.js';
import type { EventSigns } from './phrasing.js';
import {
  beamsOf,
  type Clef,
  divisionOf,
  element,
  headsOf,
  isRolled,
  isSameMeter,
  type Layer,
  type Measure,
  type Piece,
  QUARTER,
  tickOf,
  type WrittenScore,
  type WrittenStaff,
} from './written.js';

/** A part of the score, with what is known of how its notes are played. */
export interface PartToWrite {
  readonly staff: WrittenStaff;
  readonly signs: ReadonlyMap<string, EventSigns>;
  /** Dynamics by the id of the note at which they stand. */
  readonly dynamics: ReadonlyMap<string, string>;
  /** It stands first and carries tempos and chord names. */
  readonly isFirst: boolean;
  /** The id of its sound for a pitch; percussion only. */
  readonly instrument?: (pitch: number) => string;
  /** For each bar the tempo that is written there, in quarters a minute. */
  readonly tempos: ReadonlyMap<number, number>;
}

/** One bar of a part. */
export function measureText(score: WrittenScore, index: number, part: PartToWrite): string {
  const measure = score.measures[index];
  if (!measure) return '';
  const tempo = part.isFirst ? part.tempos.get(index) : undefined;
  const isLast = index === score.measures.length - 1;
  const content = [
    attributesText(score, index, part.staff.clef),
    tempo === undefined ? '' : tempoText(tempo),
    layersText(score, index, measure, part),
    isLast ? '<barline location="right"><bar-style>light-heavy</bar-style></barline>' : '',
  ].join('');
  return element('measure', { number: measure.bar }, content);
}

function attributesText({ measures, fifths }: WrittenScore, index: number, clef: Clef): string {
  const [measure, before] = [measures[index], measures[index - 1]];
  if (!measure) return '';
  const { count, unit } = measure.meter;
  const isNewKey = !before || fifths[index] !== fifths[index - 1];
  const isNewMeter = !before || !isSameMeter(measure.meter, before.meter);
  const content = [
    before ? '' : element('divisions', {}, String(QUARTER)),
    isNewKey && clef.shape !== 'perc'
      ? element('key', {}, element('fifths', {}, String(fifths[index] ?? 0)))
      : '',
    isNewMeter ? element('time', {}, `<beats>${count}</beats><beat-type>${unit}</beat-type>`) : '',
    before ? '' : clefText(clef),
  ].join('');
  return content === '' ? '' : element('attributes', {}, content);
}

function clefText({ shape, line, octaves }: Clef): string {
  if (shape === 'perc') return element('clef', {}, '<sign>percussion</sign>');
  const change = octaves === 0 ? '' : `<clef-octave-change>${octaves}</clef-octave-change>`;
  return element('clef', {}, `<sign>${shape}</sign><line>${line}</line>${change}`);
}

function tempoText(bpm: number): string {
  const mark = `<beat-unit>quarter</beat-unit><per-minute>${bpm}</per-minute>`;
  const type = element('direction-type', {}, element('metronome', {}, mark));
  return element('direction', { placement: 'above' }, type + element('sound', { tempo: bpm }));
}

/** Layers one after another, each from the bar's beginning. */
function layersText(score: WrittenScore, index: number, measure: Measure, part: PartToWrite): string {
  const { staff } = part;
  const bar = staff.bars[index] ?? [];
  const length = measure.end - measure.start;
  const names = part.isFirst ? (score.chords[index] ?? []) : [];
  const chordAt = names.map(({ tick, text }) => {
    const ticks = Math.max(1, measure.endTick - measure.tick);
    const place = measure.start + Math.round(((tick - measure.tick) * length) / ticks);
    return { place: Math.max(measure.start, Math.min(measure.end, place)), text };
  });
  if (bar.length === 0) {
    const chords = chordAt.map(({ place, text }) => harmonyText(text, place - measure.start)).join('');
    return `${chords}<note><rest measure="yes"/><duration>${length}</duration><voice>1</voice></note>`;
  }
  const heads = headsOf(bar, staff.clef.shape === 'perc' ? 0 : (score.fifths[index] ?? 0));
  const back = element('backup', {}, element('duration', {}, String(length)));
  return bar
    .map((layer, at) => {
      const chords = at === 0 ? chordAt : [];
      return layerText(layer, { measure, heads, chords, voice: at + 1, score, part });
    })
    .join(back);
}

interface LayerToWrite {
  readonly measure: Measure;
  readonly heads: ReturnType<typeof headsOf>;
  readonly chords: readonly { readonly place: number; readonly text: string }[];
  readonly voice: number;
  readonly score: WrittenScore;
  readonly part: PartToWrite;
}

function layerText(layer: Layer, about: LayerToWrite): string {
  const { measure, heads, chords, voice, score, part } = about;
  const beams = beamTexts(layer, beamsOf(layer, measure, divisionOf(measure.meter)));
  const tuplets = tupletEdges(layer);
  let next = 0;
  return layer
    .map((piece, index) => {
      const before: string[] = [];
      const isLast = index === layer.length - 1;
      for (let chord = chords[next]; chord && (isLast || chord.place < piece.end); chord = chords[next]) {
        before.push(harmonyText(chord.text, chord.place - piece.start));
        next += 1;
      }
      const notes = [...(piece.event?.notes ?? [])].sort((a, b) => a.pitch - b.pitch);
      const signs = piece.nth === 0 ? part.signs.get(piece.event?.notes[0]?.id ?? '') : undefined;
      const said = piece.nth === 0 ? notes.flatMap(({ id }) => part.staff.words.get(id) ?? []) : [];
      const loud = piece.nth === 0 ? notes.flatMap(({ id }) => part.dynamics.get(id) ?? []) : [];
      const words = [...[...(signs?.words ?? []), ...said].map(wordsText), ...loud.map(dynamicText)];
      const text = pieceText(piece, {
        heads: heads.get(piece) ?? [],
        pitches: notes.map(({ pitch }) => pitch),
        clef: part.staff.clef,
        voice,
        beams: beams.get(piece) ?? '',
        tuplet: tuplets.get(piece),
        signs,
        isRolled: piece.event !== undefined && isRolled(piece.event.notes, score.clock),
        ...(part.instrument ? { instrument: part.instrument } : {}),
      });
      return [...before, ...words, text].join('');
    })
    .join('');
}

/** Where tuplets begin and end. */
function tupletEdges(layer: Layer): ReadonlyMap<Piece, 'start' | 'stop'> {
  const edges = new Map<Piece, 'start' | 'stop'>();
  layer.forEach((piece, index) => {
    const { tuplet } = piece;
    if (!tuplet) return;
    const [isFirst, isLast] = [layer[index - 1]?.tuplet !== tuplet, layer[index + 1]?.tuplet !== tuplet];
    if (isFirst !== isLast) edges.set(piece, isFirst ? 'start' : 'stop');
  });
  return edges;
}

/** The tempo in a bar, in quarters a minute, by how long it lasts. */
export function tempoOf({ clock }: WrittenScore, measure: Measure): number {
  const quarters = ((measure.endTick - measure.tick) * 4) / (clock.ticksPerWhole ?? 1);
  const ms = clock.ms(measure.endTick) - clock.ms(tickOf(measure, measure.start));
  return ms > 0 ? (quarters * 60_000) / ms : 0;
}
