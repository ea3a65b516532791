import { channelOf, firstData, isNoteOn, kindOf, tickOf } from '../midi/index.js';
import { type Roles, role } from './against/index.js';
import { Ears } from './ears.js';
import { WaitingNotes } from './expected-notes.js';
import { HeardNotes } from './heard-notes.js';
import { Presses } from './key-presses.js';
import { writesToAspect } from './library.js';
import type { MeantNote } from './meant-notes.js';
import { onsetFinder } from './onsets.js';
import { pairsOf } from './pairs.js';
import type { Stage } from './part.js';
import { Sampler } from './sampler.js';
import { sentKeys } from './sent-music.js';
import { judge } from './sounding.js';
import type { Actions } from './switch-actions.js';

/** Everything that is heard of a part. */
export interface Hearing {
  readonly stage: Stage;
  /** Whether it is known which controllers and programs are switches, since there was an input to compare with. */
  readonly isCompared: boolean;
  readonly notes: HeardNotes;
  readonly presses: Presses;
  readonly actions: Actions;
  /** Inserted releases of switch keys that were not down: indices in the track. Known only against an input. */
  readonly strays: readonly number[];
  /** Notes of the music that lie on switch keys: indices in the track. Known only against an input. */
  readonly acting: readonly number[];
  /** Notes that were heard and not meant, and the reverse: with the pitches that they are sent with. */
  readonly unmeant: readonly number[];
  readonly unheard: readonly MeantNote[];
}

/**
 * Plays a part to a sampler, event by event.
 *
 * @param roles what each event is, where there is an input to compare with. Without one, every note on a switch key is
 *   taken for a switch, and controllers and programs for the player's own.
 */
export function hearPart(stage: Stage, roles?: Roles): Hearing {
  const { events, library, channels, meant } = stage;
  const isSwitchKey = (event: number) => library.keyAspects.has(firstData(events, event));
  const { partner, strays } = pairsOf(
    events,
    (event) =>
      channels.has(channelOf(events, event)) && !(isSwitchKey(event) && roles?.is(event, role.music)),
  );
  const keys = sentKeys(stage);
  const waiting = new WaitingNotes(meant, keys);
  const onsetAt = onsetFinder(stage);
  const sampler = new Sampler(library, events);
  const notes = new HeardNotes(stage);
  const ears = new Ears(events, notes, channels);
  const presses = new Presses(events, partner);
  const acting: number[] = [];
  const unmeant: number[] = [];
  /** The note that a note-on began; −1 where it began none. */
  const begun = new Int32Array(events.length).fill(-1);

  const hearNote = (on: number) => {
    const tick = tickOf(events, on);
    const off = partner[on] ?? -1;
    const end = off < 0 ? events.length - 1 : off;
    const expected = waiting.take(tick, firstData(events, on));
    // A note that should not be there is told by the comparison; one that was only changed is still heard.
    if (expected < 0 && roles?.is(on, role.alien)) return;
    const name = expected < 0 ? -1 : meant.articulation(expected);
    const known = expected < 0 ? -1 : meant.onset(expected);
    const onset = known < 0 ? onsetAt({ tick, endTick: tickOf(events, end) }) : known;
    const note = notes.add(
      { on, end, onset, name },
      judge(sampler, library, on, stage.sounds[name]),
      sampler,
    );
    if (expected < 0) unmeant.push(note);
    begun[on] = note;
    ears.begin(note);
    presses.need(notes, note, sampler.down(channelOf(events, on)));
  };
  const hearMelody = (event: number) => {
    if (isNoteOn(events, event)) return hearNote(event);
    const ended = begun[partner[event] ?? -1] ?? -1;
    if (ended >= 0) ears.end(ended);
  };
  const hearKey = (event: number) => {
    const isMusic = roles?.is(event, role.music) === true;
    const isStrike = isNoteOn(events, event);
    if (isMusic && isStrike) acting.push(event);
    const channel = channelOf(events, event);
    const key = firstData(events, event);
    const isHeld = library.heldKeys.has(key);
    // A key that the music has let go already is up: its own release reaches nothing.
    const isHeard = isStrike || (isHeld && sampler.down(channel).has(key));
    if (!isMusic && isHeard) ears.act(event);
    if (isMusic && !isStrike && isHeld) ears.overwrite(channel);
    sampler.hear(event);
    if (!isStrike) presses.release(event);
    else if (!isMusic) presses.strike(event);
  };
  const hearOther = (event: number, hasChannel: boolean) => {
    if (roles?.is(event, role.switch)) ears.act(event);
    const isOfMusic = roles?.is(event, role.music) || roles?.is(event, role.copy);
    if (isOfMusic && writesToAspect(library, events, event))
      for (const channel of hasChannel ? [channelOf(events, event)] : channels) ears.overwrite(channel);
    sampler.hear(event);
  };

  for (let event = 0; event < events.length; event++) {
    const kind = kindOf(events, event);
    const hasChannel = kind < 0xf0;
    if (hasChannel && !channels.has(channelOf(events, event))) continue;
    if (kind >= 0xa0) hearOther(event, hasChannel);
    else if (isSwitchKey(event)) hearKey(event);
    else hearMelody(event);
  }
  return {
    stage,
    isCompared: roles !== undefined,
    notes,
    presses,
    actions: ears.actions,
    strays: roles ? strays.filter(isSwitchKey) : [],
    acting,
    unmeant,
    unheard: waiting.left().map((note) => ({
      tick: meant.tick(note),
      pitch: keys[note] ?? 0,
      articulation: meant.articulations[meant.articulation(note)] ?? '',
    })),
  };
}
