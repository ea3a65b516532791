import {
  type Command,
  commandOf,
  type HeardNote,
  type Marked,
  marked,
  noMarks,
  type PlayerData,
  placeText,
  rangeOf,
} from '../../../player/index.js';
import { headAt } from '../head-at.js';
import { drawnIn, heardOf } from './anchors.js';
import { type Follower, followerOf, shadeBars } from './follower.js';
import { soundOf } from './sound.js';
import { firstLoudness, stripFor } from './strip.js';

/** One step of a key. Unit: percent. */
const loudnessStep = 5;

/** So much is heard before a note that is begun from, or its beginning would be faded in. Unit: ms. */
const before = 20;

/** Puts the player on a page. */
export function startPlayer(data: PlayerData, bytes: number, take: () => ArrayBuffer): void {
  const { bars, notes, lengthMs } = data;
  const strip = stripFor(lengthMs / 1000, bytes);
  const sound = soundOf(take, lengthMs, ended);
  let follower: Follower | undefined;
  let marks: Marked | undefined = noMarks;
  let isFollowing = false;

  function ended(): void {
    follower?.hide();
    tell();
  }

  function tell(): void {
    const [first, last] = marks ? [bars[marks.first], bars[marks.last]] : [];
    const again = first && last && (first === last ? `bar ${first.bar}` : `bars ${first.bar} to ${last.bar}`);
    strip.say({ isOn: sound.isOn, place: placeText(bars, sound.at()), again });
  }

  function frame(): void {
    isFollowing = sound.isOn;
    tell();
    if (!isFollowing) return;
    follower ??= followerOf(drawnIn(document, data));
    follower.show(sound.at(), lengthMs);
    requestAnimationFrame(frame);
  }

  async function hearFrom(ms: number): Promise<void> {
    try {
      await sound.hear(ms);
    } catch {
      strip.fail('This browser cannot read the sound of this page.');
      return;
    }
    if (!isFollowing) frame();
  }

  function turn(): void {
    if (sound.isOn) {
      sound.hush();
      tell();
      return;
    }
    const range = marks && rangeOf(marks, bars);
    const at = sound.at();
    void hearFrom(range && (at < range.fromMs || at >= range.toMs) ? range.fromMs : at);
  }

  function mark(next: Marked | undefined): void {
    marks = next;
    const range = next && rangeOf(next, bars);
    sound.again(range);
    // what is heard is within the marks, or comes to them
    if (range && sound.isOn && sound.at() >= range.toMs) void hearFrom(range.fromMs);
    shadeBars(next ? bars.slice(next.first, next.last + 1) : []);
    tell();
  }

  function loud(percent: number): void {
    strip.loudness.value = `${percent}`;
    sound.loudness(Number(strip.loudness.value) / 100);
  }

  /** @returns what the command does; nothing where it needs a note and none is told of */
  function actionOf(command: Command): (() => void) | undefined {
    const heard = toldOf(notes);
    switch (command) {
      case 'turn':
        return turn;
      case 'from-note':
        return heard && (() => void hearFrom(heard[0] - before));
      case 'mark':
        return heard && heard[1] in bars ? () => mark(marked(marks, heard[1])) : undefined;
      case 'unmark':
        return () => mark(noMarks);
      case 'softer':
        return () => loud(Number(strip.loudness.value) - loudnessStep);
      case 'louder':
        return () => loud(Number(strip.loudness.value) + loudnessStep);
    }
  }

  document.addEventListener('keydown', (event) => {
    if (!strip.keys.checked || isItsOwn(event)) return;
    const command = commandOf(event);
    const action = command && actionOf(command);
    if (!action) return;
    event.preventDefault();
    action();
  });
  document.addEventListener('dblclick', (event) => {
    const head = headAt(event);
    const heard = head && heardOf(head, notes);
    if (heard) void hearFrom(heard[0] - before);
  });
  for (const [button, command] of [
    [strip.turn, 'turn'],
    [strip.fromNote, 'from-note'],
    [strip.mark, 'mark'],
    [strip.unmark, 'unmark'],
  ] as const)
    button.addEventListener('click', () => (actionOf(command) ?? strip.askForNote)());
  strip.loudness.addEventListener('input', () => loud(Number(strip.loudness.value)));
  loud(firstLoudness);
  document.body.append(strip.element);
  keepFree(strip.element);
  tell();
}

/** The note that the page tells of: it is pointed at, was clicked, or has the keyboard. */
function toldOf(notes: PlayerData['notes']): HeardNote | undefined {
  const head = document.querySelector('[data-note][aria-describedby]');
  return head ? heardOf(head, notes) : undefined;
}

/** Whether a key belongs to what has the keyboard: Enter to buttons and links, all of them to a text. */
function isItsOwn({ key, target }: KeyboardEvent): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.matches('textarea, select, input:not([type=range], [type=checkbox])')) return true;
  return key === 'Enter' && target.matches('button, a, summary, input');
}

/** What is scrolled into view is not laid under the strip. */
function keepFree(element: HTMLElement): void {
  const tell = () =>
    document.documentElement.style.setProperty(
      '--strip',
      `${Math.ceil(element.getBoundingClientRect().height)}px`,
    );
  new ResizeObserver(tell).observe(element);
}
