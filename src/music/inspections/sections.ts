import { firstData, nextStatus, type Part, type Track } from '../../midi/index.js';
import { departmentOf, type Voice } from '../balance/index.js';
import { type InstrumentKind, instrumentOf, kindOf } from '../instruments/index.js';

/** A part as a section of the orchestra. */
export interface Section {
  readonly part: Part;
  readonly name: string;
  readonly kind: InstrumentKind;
  readonly players: number;
  /** How many players of strings are a whole department of its kind. */
  readonly department?: number;
  /** What plays it: its part first, then layers that double it; the part as it was recorded, if absent. */
  readonly voices?: readonly Voice[];
  /** Whether it is said to have the tune. */
  readonly hasTune?: boolean;
}

/**
 * The section that a part is, by its track's name, else by its first program; undefined where neither tells, and for
 * percussion. Players are a number in the name ("4 Horns", "Horns a 4"); else one, or a department of strings.
 */
export function sectionOf(track: Track, part: Part): Section | undefined {
  const name = track.name.toLowerCase();
  const kind = kindOf(name, firstProgram(track, part.channel));
  if (!kind) return undefined;
  const [, before, behind] = /^(\d{1,2})\s|\ba\s?(\d{1,2})\b/u.exec(name) ?? [];
  const said = Number(before ?? behind ?? 0);
  const shown = track.name === '' ? `track ${track.number}` : track.name;
  if (kind !== 'strings') return { part, name: shown, kind, players: said > 0 ? said : 1 };
  const department = departmentOf(name, instrumentOf(name, firstProgram(track, part.channel)));
  return { part, name: shown, kind, department, players: said > 0 ? said : department };
}

/** The first program that a part sets, as it stands in the file. */
export function firstProgram({ columns }: Track, channel: number): number | undefined {
  const event = nextStatus(columns, 0xc0 | channel, 0);
  return event < 0 ? undefined : firstData(columns, event);
}
