import type { CueDivide } from './types.js';

/**
 * How many players of a divided part play each note of a chord, from the highest note down.
 *
 * top-down: desks are dealt to notes from the top down. Where there are as many notes as desks or fewer, each note has
 * whole desks; where there are more, a desk shares its own notes among its players. What does not come out even goes to
 * the upper notes; where a desk would have more notes than players, players are dealt as in-turn. bottom-up: the same from the lowest note up, so that the first desk has the lowest. in-turn: player by
 * player from the top down, whatever their desk, so that no two notes differ by more than one player.
 *
 * A single note is played by all; a note by one player at least, even where there are more notes than players.
 *
 * @param notes how many, 1 or more
 */
export function dealt(notes: number, { by, players }: CueDivide): readonly number[] {
  const fromFirst = by === 'in-turn' ? evenly(total(players), notes) : byDesks(notes, players);
  const heard = fromFirst.map((one) => Math.max(1, one));
  return by === 'bottom-up' ? heard.reverse() : heard;
}

/** How many players there are in all desks. */
export function total(desks: readonly number[]): number {
  return desks.reduce((sum, players) => sum + players, 0);
}

function byDesks(notes: number, desks: readonly number[]): number[] {
  if (notes <= desks.length) {
    let from = 0;
    return evenly(desks.length, notes).map((count) => {
      from += count;
      return total(desks.slice(from - count, from));
    });
  }
  const shared = evenly(notes, desks.length).flatMap((count, desk) => evenly(desks[desk] ?? 0, count));
  return shared.includes(0) ? evenly(total(desks), notes) : shared;
}

/** A whole number in so many parts; the first have one more, where it does not come out even. */
function evenly(whole: number, parts: number): number[] {
  const least = Math.floor(whole / parts);
  return Array.from({ length: parts }, (_, index) => least + (index < whole % parts ? 1 : 0));
}
