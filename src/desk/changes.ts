import {
  type AlteredNote,
  type ComparedTakes,
  compareTakes,
  type EventDifference,
  type NotePlace,
  type PartInTakes,
  type Take,
} from '../compare/index.js';
import { escapeText, plural } from '../diagnostics/index.js';
import { type BarRange, barRangesOf, noteTick, pitchOf } from '../midi/index.js';

/** Something that is otherwise than before, in a part. */
export interface Change {
  /** The part as it is called; or the track, of what is besides notes. */
  readonly part: string;
  /** What has become of how many notes: `short → long: 3 notes`. */
  readonly said: string;
  /** The rule that decides now and what was measured, of the first of them; where an articulation is another. */
  readonly why?: string;
  /** Where they are; none where the music has no bars. */
  readonly bars: readonly BarRange[];
  /** The notes, by their names on the sheet that is shown. */
  readonly notes: readonly string[];
}

/** What is otherwise between two takes. */
export interface Changes {
  readonly list: readonly Change[];
  /** How many notes have another articulation, and of how many. */
  readonly decided: number;
  readonly of: number;
}

/**
 * What of the music is otherwise in a second take: articulations by what became what, then what is played or sent
 * otherwise, part by part.
 *
 * @param idsOf the names that the notes of a part have on the sheet that is shown; see `sheetIds`
 */
export function changesBetween(first: Take, second: Take, idsOf: SheetIds): Changes {
  const compared = compareTakes(first, second);
  const inPart = compared.parts.map((one) => ofPart(one, idsOf));
  return {
    list: [...ofShift(compared), ...inPart.flat(), ...compared.events.map(ofEvents)],
    decided: compared.parts.reduce(
      (sum, { altered }) => sum + altered.filter(({ decided }) => decided).length,
      0,
    ),
    of: second.parts.reduce((sum, { part }) => sum + part.decided.length, 0),
  };
}

/** The names of notes on a sheet, by the key of their part, their tick and their pitch. */
export type SheetIds = ReadonlyMap<string, readonly string[]>;

/** @param named the name of a part's note on the sheet, by the index of its decision */
export function sheetIds(
  take: Take,
  staffs: readonly string[],
  named: (staff: number, decision: number) => string,
): SheetIds {
  const ids = new Map<string, string[]>();
  for (const { key, name, part } of take.parts) {
    const staff = staffs.indexOf(key);
    if (staff < 0) continue;
    const { decided } = part;
    for (let row = 0; row < decided.length; row++) {
      const note = { tick: noteTick(decided, row), pitch: pitchOf(decided, row) };
      const at = idKey(name, part.part.channel, note);
      const known = ids.get(at);
      if (known) known.push(named(staff, row));
      else ids.set(at, [named(staff, row)]);
    }
  }
  return ids;
}

function idKey(name: string, channel: number, { tick, pitch }: Pick<NotePlace, 'tick' | 'pitch'>): string {
  return JSON.stringify([name, channel, tick, pitch]);
}

function ofShift({ shift }: ComparedTakes): readonly Change[] {
  if (!shift) return [];
  const { bars, after } = shift;
  const said = `${plural(Math.abs(bars), 'bar')} ${bars > 0 ? 'put in' : 'taken out'} behind bar ${after}`;
  return [{ part: 'All parts', said, bars: [], notes: [] }];
}

function ofPart({ name, part, only, lone, altered }: PartInTakes, ids: SheetIds): readonly Change[] {
  const notesOf = (places: readonly NotePlace[]) =>
    [...new Set(places.map((one) => idKey(name, part.part.channel, one)))].flatMap(
      (key) => ids.get(key) ?? [],
    );
  const change = (what: string, places: readonly NotePlace[], why?: string): readonly Change[] =>
    places.length === 0
      ? []
      : [
          {
            part: escapeText(name),
            said: `${what}: ${plural(places.length, 'note')}`,
            bars: barRangesOf(places.flatMap(({ bar }) => bar ?? [])),
            notes: notesOf(places),
            ...(why === undefined ? {} : { why }),
          },
        ];
  if (only) return change(only === 'second' ? 'the part is new' : 'the part is gone', lone);
  const played = altered.filter((one) => !one.decided && !one.sent);
  return [
    ...byArticulation(altered).flatMap(({ from, to, notes }) =>
      change(`${from} → ${to}`, notes, notes[0]?.decided?.to.reason),
    ),
    ...change(
      'new in the recording',
      lone.filter(({ take }) => take === 'second'),
    ),
    ...change(
      'gone from the recording',
      lone.filter(({ take }) => take === 'first'),
    ),
    ...change(`played otherwise (${aspects(played, playedAspects)})`, played),
    ...bySent(altered, change),
  ];
}

interface Kind {
  readonly from: string;
  readonly to: string;
  readonly notes: AlteredNote[];
}

function byArticulation(altered: readonly AlteredNote[]): readonly Kind[] {
  const kinds = new Map<string, Kind>();
  for (const note of altered) {
    if (!note.decided) continue;
    const [from, to] = [note.decided.from.articulation, note.decided.to.articulation];
    const key = JSON.stringify([from, to]);
    const kind = kinds.get(key);
    if (kind) kind.notes.push(note);
    else kinds.set(key, { from, to, notes: [note] });
  }
  return [...kinds.values()];
}

function playedAspects({ moved, held, velocity }: AlteredNote): readonly string[] {
  return [
    ...(moved === undefined ? [] : ['time']),
    ...(held ? ['length'] : []),
    ...(velocity ? ['velocity'] : []),
  ];
}

function aspects(notes: readonly AlteredNote[], of: (note: AlteredNote) => readonly string[]): string {
  return [...new Set(notes.flatMap(of))].join(', ');
}

function bySent(
  altered: readonly AlteredNote[],
  change: (what: string, places: readonly NotePlace[]) => readonly Change[],
): readonly Change[] {
  const sent = altered.filter((note) => note.sent);
  return change(`decided as before, sent otherwise (${aspects(sent, (note) => note.sent ?? [])})`, sent);
}

function ofEvents({ track, name, kind, bars, removed, added }: EventDifference): Change {
  const said = [...(removed > 0 ? [`${removed} gone`] : []), ...(added > 0 ? [`${added} new`] : [])];
  return {
    part: name === '' ? `Track ${track}` : escapeText(name),
    said: `${kind}: ${said.join(', ')}`,
    bars,
    notes: [],
  };
}
