import type { BasicPreset, BasicSoundBank, MIDIChannel, MIDIController } from 'spessasynth_core';
import { failed, found, type Result } from '../problem.js';
import type { Sound } from '../schedule/index.js';
import { faintEnder } from './faint.js';
import type { Library } from './library.js';
import { playable } from './playable.js';
import { quicken } from './quick.js';
import type { Struck, Synth } from './synth.js';

/** A program that the bank does not have, and what is heard in its place. */
export interface Substitute {
  readonly program: number;
  readonly isKit: boolean;
  readonly heard: string;
}

/** A synthesiser with its sounds set. */
export interface ReadySynth {
  readonly synth: Synth;
  readonly substitutes: readonly Substitute[];
}

const attackTime = 73;
const sustainPedal = 64;
const expression = 11;
/** Its seven bits more. */
const expressionFine = 43;

/**
 * A synthesiser with one channel for each sound, each with its preset; nothing else in it: no room, no chorus. Every note
 * that will be played is looked up in the bank first, so that what cannot be played is told before anything is.
 */
export async function readySynth(
  library: Library,
  bank: BasicSoundBank,
  sounds: readonly Sound[],
  struck: Iterable<Struck>,
  sampleRate: number,
): Promise<Result<ReadySynth>> {
  const processor = new library.SpessaSynthProcessor(sampleRate, {
    eventsEnabled: false,
    effectsEnabled: false,
  });
  await processor.processorInitialized;
  processor.soundBankManager.addSoundBank(bank, 'bank');
  processor.setSystemParameter('autoAllocateVoices', true);
  const channels: MIDIChannel[] = [];
  const substitutes = new Map<string, Substitute>();
  for (const [index, sound] of sounds.entries()) {
    while (processor.midiChannels.length <= index) processor.createMIDIChannel();
    const channel = processor.midiChannels[index];
    if (!channel) return failed('sound-failed', 'the synthesiser gives no more channels');
    const preset = setSound(processor, channel, sound);
    if (!preset) return failed('bank-sound', `the bank has nothing to play for program ${sound.program}`);
    if (preset.program !== sound.program || preset.isDrum !== sound.isKit) {
      const { program, isKit } = sound;
      substitutes.set(`${program} ${isKit}`, { program, isKit, heard: preset.name });
    }
    quicken(library, preset);
    channels.push(channel);
  }

  const check = playable(library, sampleRate);
  const indices = new Map(sounds.map((sound, index) => [sound, index]));
  for (const one of struck) {
    const preset = channels[indices.get(one.sound) ?? -1]?.preset;
    const problem = preset && check(preset, one);
    if (problem) return { ok: false, problem };
  }
  return found({ synth: synthOf(processor, channels), substitutes: [...substitutes.values()] });
}

type Processor = InstanceType<Library['SpessaSynthProcessor']>;

function setSound(
  processor: Processor,
  channel: MIDIChannel,
  { program, isKit, attack }: Sound,
): BasicPreset | undefined {
  channel.setDrums(isKit);
  processor.programChange(channel.channel, program);
  processor.controllerChange(channel.channel, attackTime, attack);
  return channel.preset;
}

function synthOf(processor: Processor, channels: readonly MIDIChannel[]): Synth {
  const { length } = channels;
  const endFaint = faintEnder(processor);
  return {
    on: (sound, key, velocity) => processor.noteOn(sound, key, velocity),
    off: (sound, key) => processor.noteOff(sound, key),
    controller: (sound, controller, value) =>
      processor.controllerChange(sound, controller as MIDIController, value),
    expression(sound, value) {
      processor.controllerChange(sound, expression, value >> 7);
      processor.controllerChange(sound, expressionFine, value & 127);
    },
    // controller 10 of the library ends just before hard right; its own pan does not
    pan: (sound, seat) => channels[sound]?.setSystemParameter('pan', seat),
    bend: (sound, value) => processor.pitchWheel(sound, value),
    letGo() {
      for (let sound = 0; sound < length; sound += 1) {
        processor.controllerChange(sound, sustainPedal, 0);
        channels[sound]?.stopAllNotes();
      }
    },
    render(left, right, start, count) {
      processor.process(left, right, start, count);
      endFaint();
    },
    voices: () => processor.voiceCount,
  };
}
