import type { MidiEvent } from '../midi/index.js';
import type { Role } from './against/index.js';
import { contents } from './effects.js';
import { type MeantNote, waitingNotes } from './expected-notes.js';
import type { HeardNote } from './heard-note.js';
import { type Press, pressesOf } from './key-presses.js';
import { writesToAspect } from './library.js';
import { onsetFinder } from './onsets.js';
import { isNote, isStrike, pairsOf } from './pairs.js';
import type { Stage } from './part.js';
import { type Arrival, samplerOf } from './sampler.js';
import { meantAsSent } from './sent-music.js';
import { judge } from './sounding.js';
import { type Action, earsFor } from './switch-actions.js';

/** Everything that is heard of a part. */
export interface Hearing {
  readonly stage: Stage;
  /** Whether it is known which controllers and programs are switches, since there was an input to compare with. */
  readonly isCompared: boolean;
  /** In file order. */
  readonly notes: readonly HeardNote[];
  readonly presses: readonly Press[];
  readonly actions: readonly Action[];
  /** Inserted releases of switch keys that were not down: indices in the track. Known only against an input. */
  readonly strays: readonly number[];
  /** Notes of the music that lie on switch keys: indices in the track. Known only against an input. */
  readonly acting: readonly number[];
  /** Notes that were heard and not meant, and the reverse. */
  readonly unmeant: readonly HeardNote[];
  readonly unheard: readonly MeantNote[];
}

/**
 * Plays a part to a sampler, event by event.
 *
 * @param roleOf what an event is, by index, where there is an input to compare with. Without one, every note on a
 *   switch key is taken for a switch, and controllers and programs for the player's own.
 */
export function hearPart(stage: Stage, roleOf?: (index: number) => Role): Hearing {
  const { track, library, channels } = stage;
  const sampler = samplerOf(library);
  const waiting = waitingNotes(meantAsSent(stage));
  const onsetAt = onsetFinder(stage);
  const ears = earsFor(channels);
  const presses = pressesOf(stage, roleOf);
  const isMelody = ({ channel, noteNumber }: { readonly channel: number; readonly noteNumber: number }) =>
    channels.has(channel) && !library.keyAspects.has(noteNumber);
  const { offOf } = pairsOf(track, isMelody);
  const notes: HeardNote[] = [];
  const acting: number[] = [];
  const endings = new Map<number, HeardNote>();
  const tickOf = (index: number) => track.ticks[index] ?? 0;
  const keysOf = ({ meant }: HeardNote) => library.sounds.get(meant ?? '')?.keys ?? new Set<number>();

  const hearNote = (index: number, arrival: Arrival) => {
    const { channel, pitch } = arrival;
    const tick = tickOf(index);
    const off = offOf.get(index);
    const endTick = tickOf(off ?? track.ticks.length - 1);
    const expected = waiting.take(tick, pitch);
    const meant = expected?.articulation;
    // A note that should not be there is told by the comparison; one that was only changed is still heard.
    if (meant === undefined && roleOf?.(index) === 'alien') return;
    const verdict = judge(sampler, library, arrival, meant);
    const note: HeardNote = {
      index,
      tick,
      endTick,
      channel,
      pitch,
      onset: expected?.onset ?? onsetAt({ tick, endTick }),
      meant,
      ...verdict,
    };
    notes.push(note);
    if (off !== undefined) endings.set(off, note);
    ears.begin(note, keysOf(note));
    presses.need(note, keysOf(note), sampler.down(channel));
  };
  const hearKey = (event: Extract<MidiEvent, { type: 'noteOn' | 'noteOff' }>, index: number) => {
    const isMusic = roleOf?.(index) === 'music';
    const kind = isStrike(event) ? 'strike' : 'release';
    if (isMusic && kind === 'strike') acting.push(index);
    const { channel, noteNumber: key } = event;
    const isHeld = library.heldKeys.has(key);
    // A key that the music has let go already is up: its own release reaches nothing.
    const isHeard = kind === 'strike' || (isHeld && sampler.down(channel).has(key));
    if (!isMusic && isHeard) ears.act({ kind, channel, tick: tickOf(index), key, what: contents.key(key) });
    if (isMusic && kind === 'release' && isHeld) ears.overwrite([channel]);
    sampler.hear(event, tickOf(index));
    presses.pass(index);
  };
  const hearOther = (event: MidiEvent, index: number) => {
    const role = roleOf?.(index);
    if (event.type === 'controller' || event.type === 'programChange') {
      if (role === 'switch')
        ears.act({ ...sentBy(event), channel: event.channel, tick: tickOf(index), key: undefined });
      if ((role === 'music' || role === 'copy') && writesToAspect(library, event))
        ears.overwrite([event.channel]);
    } else if (role === 'music' && writesToAspect(library, event)) ears.overwrite(channels);
    sampler.hear(event, tickOf(index));
  };
  const hear = (event: MidiEvent, index: number) => {
    if (!isNote(event)) return hearOther(event, index);
    if (!isMelody(event)) return hearKey(event, index);
    const ended = endings.get(index);
    if (ended) ears.end(ended, keysOf(ended));
    else if (isStrike(event)) hearNote(index, { ...event, pitch: event.noteNumber });
  };

  track.events.forEach((event, index) => {
    if (!('channel' in event) || channels.has(event.channel)) hear(event, index);
  });
  return {
    stage,
    isCompared: roleOf !== undefined,
    notes,
    presses: presses.all,
    actions: ears.actions,
    strays: roleOf ? presses.strays : [],
    acting,
    unmeant: notes.filter(({ meant }) => meant === undefined),
    unheard: waiting.left(),
  };
}

function sentBy(
  event: Extract<MidiEvent, { type: 'controller' | 'programChange' }>,
): Pick<Action, 'kind' | 'what'> {
  if (event.type === 'programChange') return { kind: 'program', what: contents.program(event.programNumber) };
  return { kind: 'controller', what: contents.controller(event.controllerType, event.value) };
}
