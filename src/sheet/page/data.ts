import { escapeText, spellPitch } from '../../diagnostics/index.js';
import type { Clock } from '../../midi/index.js';
import type { Sheet, SheetNote, SheetPart } from '../types.js';
import { formatMs } from './words.js';

/** A note as the page's script tells of it: heading, then lines. */
type Told = readonly [heading: string, ...lines: string[]];

/** What the page says of each note that is pointed at, part by part, in the order of the notes. */
export function notesData({ parts, clock }: Pick<Sheet, 'parts' | 'clock'>): readonly (readonly Told[])[] {
  return parts.map((part) => part.notes.map((note) => tell(part, note, clock)));
}

/** What a note is called, for those who do not see where it stands. Not escaped. */
export function noteLabel(part: SheetPart, note: SheetNote): string {
  return `${headingOf(part, note)}, ${note.articulation}`;
}

function headingOf({ name, middleC }: SheetPart, { place, tick, pitch }: SheetNote): string {
  const at = place ? `bar ${place.bar}, beat ${place.beat}` : `tick ${tick}`;
  return `${name}, ${at}: ${spellPitch(pitch, middleC)}`;
}

function tell(part: SheetPart, note: SheetNote, clock: Clock): Told {
  const held = formatMs(clock.ms(note.endTick) - clock.ms(note.tick));
  const switched =
    note.switchTick === null
      ? 'nothing is sent: it is set already'
      : `switched ${formatMs(clock.ms(note.tick) + note.movedMs - clock.ms(note.switchTick))} before, at tick ${note.switchTick}`;
  const moved =
    note.movedMs === 0
      ? []
      : [
          `starts ${formatMs(Math.abs(note.movedMs))} ${note.movedMs < 0 ? 'earlier' : 'later'} than it was played`,
        ];
  const layered = note.layers.length === 0 ? [] : [`doubled by ${note.layers.join(', ')}`];
  const lines = [
    note.articulation,
    note.why,
    `held ${held}, velocity ${note.velocity}; ${switched}`,
    ...moved,
    ...layered,
  ];
  return [escapeText(headingOf(part, note)), ...lines.map(escapeText)];
}
