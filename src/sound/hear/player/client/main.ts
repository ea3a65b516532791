import { type Command, commandOf } from '../commands.js';
import { type PlayerData, placeText } from '../data.js';
import { type Marked, marked, noMarks, rangeOf } from '../marks.js';
import { drawnIn, heardOf } from './anchors.js';
import { followerOf, shadeBars } from './follower.js';
import { type Sound, soundOf } from './sound.js';
import { firstLoudness, type Strip, stripFor } from './strip.js';

/** One step of a key. Unit: percent. */
const loudnessStep = 5;

/** Puts the player on a page, once its sound has been read. */
export async function startPlayer(data: PlayerData, bytes: ArrayBuffer): Promise<void> {
  const { byteLength } = bytes;
  let player: Player | undefined;
  try {
    const sound = await soundOf(bytes, () => player?.ended());
    player = playerOf(data, sound, stripFor(sound.lengthMs / 1000, byteLength));
  } catch {
    const strip = stripFor(0, byteLength);
    strip.fail('This browser cannot read the sound of this page.');
    document.body.append(strip.element);
  }
}

interface Player {
  ended(): void;
}

function playerOf(data: PlayerData, sound: Sound, strip: Strip): Player {
  const { bars, notes } = data;
  const follower = followerOf(drawnIn(document, data));
  let marks: Marked | undefined = noMarks;

  function tell(): void {
    const [first, last] = marks ? [bars[marks.first], bars[marks.last]] : [];
    const again = first && last && (first === last ? `bar ${first.bar}` : `bars ${first.bar} to ${last.bar}`);
    strip.say({ isOn: sound.isOn, place: placeText(bars, sound.at()), again });
  }

  function frame(): void {
    tell();
    if (!sound.isOn) return;
    follower.show(sound.at(), sound.lengthMs);
    requestAnimationFrame(frame);
  }

  async function hearFrom(ms: number): Promise<void> {
    const wasOn = sound.isOn;
    await sound.hear(ms);
    if (!wasOn) frame();
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
    shadeBars(next ? bars.slice(next.first, next.last + 1).map(({ bar }) => bar) : []);
    tell();
  }

  function loud(percent: number): void {
    strip.loudness.value = `${percent}`;
    sound.loudness(Number(strip.loudness.value) / 100);
  }

  /** The note that has the keyboard. */
  function focused(): ReturnType<typeof heardOf> {
    const head = document.activeElement;
    return head?.hasAttribute('data-note') ? heardOf(head, notes) : undefined;
  }

  /** @returns what the command does; nothing where it needs a note and none has the keyboard */
  function actionOf(command: Command): (() => void) | undefined {
    const heard = focused();
    switch (command) {
      case 'turn':
        return turn;
      case 'from-note':
        return heard && (() => void hearFrom(heard[0]));
      case 'mark':
        return heard && (() => mark(marked(marks, heard[1])));
      case 'unmark':
        return () => mark(noMarks);
      case 'softer':
        return () => loud(Number(strip.loudness.value) - loudnessStep);
      case 'louder':
        return () => loud(Number(strip.loudness.value) + loudnessStep);
    }
  }

  document.addEventListener('keydown', (event) => {
    const command = isTyping(event.target) ? undefined : commandOf(event);
    const action = command && actionOf(command);
    if (!action) return;
    event.preventDefault();
    action();
  });
  document.addEventListener('dblclick', ({ target }) => {
    const head = target instanceof Element ? target.closest('[data-note]') : null;
    const heard = head && heardOf(head, notes);
    if (heard) void hearFrom(heard[0]);
  });
  strip.turn.addEventListener('click', turn);
  strip.unmark.addEventListener('click', () => mark(noMarks));
  strip.loudness.addEventListener('input', () => loud(Number(strip.loudness.value)));
  loud(firstLoudness);
  document.body.append(strip.element);
  tell();
  return {
    ended() {
      follower.hide();
      tell();
    },
  };
}

/** Keys in a field, on a button or on a link are its own. */
function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.matches('input, textarea, select, button, a');
}
