import type { ArticulationMap } from '../../map/index.js';
import { finder } from '../../midi/index.js';
import { type Content, contentText } from '../content.js';
import { effectOf } from '../effects.js';
import type { Hearing } from '../playback.js';
import { type Actions, SwitchesBetweenNotes } from '../switch-actions.js';
import { keyName, type Violation } from '../violations.js';
import type { HearingRule } from './rule.js';

/**
 * other-switch: what stands between two notes of a channel must be what the later one's articulation sends: each message
 * at most once, in the map's order, and a program that has a bank with its bank. Less may be sent, since what is in
 * force need not be sent again.
 */
export const otherSwitches: HearingRule = (hearing) => {
  const { actions, notes, unheard, stage } = hearing;
  const sendable = new Map(
    [...stage.map.articulations.keys()].map((name) => [name, sequenceOf(name, stage.map)]),
  );
  const found: Violation[] = [];
  const tell = (action: number, what: string) => {
    const message = `${nameOf(action, hearing)} ${what}`;
    found.push(stage.complain('other-switch', actions.spot(action), message));
  };
  const between = new SwitchesBetweenNotes(actions, notes.length);
  const lost = finder(unheard.map(({ tick }) => tick).sort((a, b) => a - b));
  for (const note of between.notes) {
    const sequence = sendable.get(notes.meant(note));
    if (!sequence || isAsSent(actions, between, note, sequence)) continue;
    const sent = between.before(note);
    // A note that is lost leaves its switches behind; they are no fault of their own.
    if (lost(notes.tick(note)) !== lost(actions.tick(sent[0] ?? 0) - 1)) continue;
    for (const [action, what] of misplacedIn(actions, sent, sequence, notes.meant(note))) tell(action, what);
  }
  for (const action of between.behindAll)
    if (lost(Number.POSITIVE_INFINITY) === lost(actions.tick(action) - 1)) tell(action, 'is for no note');
  return found;
};

/** What an articulation sends, in order; for a program, the banks that go before it. */
type Sequence = readonly { readonly what: Content; readonly banks: readonly Content[] }[];

function sequenceOf(name: string, { articulations, switching }: ArticulationMap): Sequence {
  const isMomentary = switching.notes === 'momentary';
  return (articulations.get(name)?.switch ?? []).flatMap((message) => {
    const { sent } = effectOf(message, isMomentary);
    return sent.map((what, index) => ({
      what,
      banks: index === sent.length - 1 ? sent.slice(0, index) : [],
    }));
  });
}

/** Whether what stands before a note is the whole of a sequence, as it mostly is. */
function isAsSent(
  actions: Actions,
  between: SwitchesBetweenNotes,
  note: number,
  sequence: Sequence,
): boolean {
  let action = between.first(note);
  for (const { what } of sequence) {
    if (action < 0 || actions.content(action) !== what) return false;
    action = between.following(action);
  }
  return action < 0;
}

/** Looks backwards from the note: what stands nearest to it is most likely what was sent for it. */
function misplacedIn(
  actions: Actions,
  sent: readonly number[],
  sequence: Sequence,
  meant: string,
): readonly (readonly [action: number, what: string])[] {
  const found: [number, string][] = [];
  const accepted = new Set<Content>();
  let end = sequence.length;
  for (const action of [...sent].reverse()) {
    const content = actions.content(action);
    const at = sequence.findLastIndex(({ what }, index) => index < end && what === content);
    if (at >= 0) {
      end = at;
      accepted.add(content);
    } else if (accepted.has(content)) found.push([action, 'is sent twice']);
    else if (sequence.some(({ what }) => what === content)) found.push([action, 'is sent out of its order']);
    else found.push([action, `is no switch of ${meant}, which is meant for the next note`]);
  }
  const banksOf = new Map(sequence.map(({ what, banks }) => [what, banks]));
  for (const action of sent) {
    const content = actions.content(action);
    if (accepted.has(content) && !banksOf.get(content)?.every((bank) => accepted.has(bank)))
      found.push([action, 'is sent without its bank']);
  }
  return found.sort(([a], [b]) => actions.tick(a) - actions.tick(b));
}

function nameOf(action: number, { actions, stage: { map } }: Hearing): string {
  const key = actions.key(action);
  return key === undefined
    ? `the switch ${contentText(actions.content(action))}`
    : `the switch key ${keyName(key, map.middleC)}`;
}
