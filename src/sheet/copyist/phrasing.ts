import { type NotePlaying, type NoteSigns, signsOf, usualState, wordsBetween } from './signs.js';
import type { Piece, WrittenStaff } from './written.js';

/** What is written at an event's first head. */
export interface EventSigns {
  readonly elements: readonly string[];
  readonly words: readonly string[];
  /** A slur ends here, begins here; both where two meet. */
  readonly slurs: readonly ('stop' | 'start')[];
}

/**
 * The signs of a staff, by the id of each event's first note: states are told where they change, and notes that are
 * joined stand under slurs. A slur holds notes that follow each other without a rest, at least two.
 */
export function phrasingOf(
  { bars }: WrittenStaff,
  playing: ReadonlyMap<string, NotePlaying>,
): ReadonlyMap<string, EventSigns> {
  const events = eventsOf(bars.flat(2));
  const signs = events.map(({ ids }) => signsOfChord(ids, playing));
  const slurs = slursOver(events, signs);
  let state = usualState;
  return new Map(
    events.map(({ ids: [first = ''] }, index): [string, EventSigns] => {
      const own = signs[index];
      if (!own) return [first, { elements: [], words: [], slurs: slurs[index] ?? [] }];
      const words = [...wordsBetween(state, own.state), ...own.words];
      state = own.state;
      return [first, { elements: own.elements, words, slurs: slurs[index] ?? [] }];
    }),
  );
}

interface Event {
  readonly ids: readonly string[];
  readonly start: number;
  readonly end: number;
}

/** Events that are struck, in order of time; of two together the longer one comes last. */
function eventsOf(pieces: readonly Piece[]): readonly Event[] {
  return pieces
    .flatMap(({ event, nth }) => {
      if (!event || nth > 0) return [];
      return [{ ids: event.notes.map(({ id }) => id), start: event.start, end: event.end }];
    })
    .sort((a, b) => a.start - b.start || a.end - b.end);
}

/** A chord has the signs of all its notes; undefined where nothing is known of any. */
function signsOfChord(
  ids: readonly string[],
  playing: ReadonlyMap<string, NotePlaying>,
): NoteSigns | undefined {
  const known = ids.flatMap((id) => playing.get(id) ?? []).map(signsOf);
  const [first] = known;
  if (!first) return undefined;
  return {
    elements: [...new Set(known.flatMap(({ elements }) => elements))],
    words: [...new Set(known.flatMap(({ words }) => words))],
    state: first.state,
    isLegato: known.some(({ isLegato }) => isLegato),
  };
}

function slursOver(
  events: readonly Event[],
  signs: readonly (NoteSigns | undefined)[],
): readonly EventSigns['slurs'][] {
  const isJoined = (index: number) => {
    const [before, event] = [events[index - 1], events[index]];
    if (!before || !event || !signs[index - 1]?.isLegato || !signs[index]?.isLegato) return false;
    return event.start > before.start && event.start <= before.end;
  };
  return events.map((_, index) => {
    const [from, on] = [isJoined(index), isJoined(index + 1)];
    return from === on ? [] : [from ? 'stop' : 'start'];
  });
}
