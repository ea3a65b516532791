/**
 * A SoundFont of our own for tests: one looped sine of 441 Hz and one that dies away, written by SoundFont 2.04, 7.1–7.10
 * (from memory) without the code that is tested.
 */
export interface TestBank {
  readonly programs?: readonly number[];
  /** More generators for the instrument's zone: operator and amount. */
  readonly generators?: readonly (readonly [operator: number, amount: number])[];
  readonly sampleRate?: number;
  /** The sample header's flags; 1 is mono. */
  readonly type?: number;
  /** Bytes in place of the samples. */
  readonly samples?: Uint8Array;
  /** How often the preset's zone stands in the bank. */
  readonly zones?: number;
  /** A kit beside the presets. */
  readonly isKit?: boolean;
}

const cycle = 100;
const cycles = 20;
const padding = 46;

export function testBank({
  programs = [0],
  generators = [],
  sampleRate = 44_100,
  type = 1,
  samples = sine(),
  zones = 1,
  isKit = false,
}: TestBank = {}): Uint8Array {
  const length = cycle * cycles;
  const heads = [...programs.map((program) => [program, 0] as const), ...(isKit ? [[0, 128] as const] : [])];
  // each preset has the same zones, and each zone the one instrument
  const bags = heads.length * zones;
  const pdta = list('pdta', [
    chunk('phdr', [
      ...heads.map(([program, bank], index) =>
        join(name(`p${program}`), word(program), word(bank), word(index * zones), new Uint8Array(12)),
      ),
      join(name('EOP'), word(0), word(0), word(bags), new Uint8Array(12)),
    ]),
    chunk(
      'pbag',
      [...Array(bags + 1).keys()].map((bag) => join(word(bag), word(0))),
    ),
    chunk('pmod', [new Uint8Array(10)]),
    chunk('pgen', [...Array(bags).fill(join(word(41), word(0))), new Uint8Array(4)]),
    chunk('inst', [join(name('i'), word(0)), join(name('EOI'), word(1))]),
    chunk('ibag', [join(word(0), word(0)), join(word(generators.length + 2), word(0))]),
    chunk('imod', [new Uint8Array(10)]),
    chunk('igen', [
      ...generators.map(([operator, amount]) => join(word(operator), word(amount))),
      join(word(54), word(1)),
      join(word(53), word(0)),
      new Uint8Array(4),
    ]),
    chunk('shdr', [
      join(
        ...[name('s'), long(0), long(length), long(cycle), long(length - cycle), long(sampleRate)],
        ...[Uint8Array.of(69, 0), word(0), word(type)],
      ),
      join(name('EOS'), new Uint8Array(26)),
    ]),
  ]);
  const info = list('INFO', [chunk('ifil', [word(2), word(4)]), chunk('INAM', [text('tests\0')])]);
  return chunk('RIFF', [text('sfbk'), info, list('sdta', [chunk('smpl', [samples])]), pdta]);
}

function sine(): Uint8Array {
  const view = new DataView(new ArrayBuffer(2 * (cycle * cycles + padding)));
  for (let frame = 0; frame < cycle * cycles; frame += 1)
    view.setInt16(2 * frame, Math.round(16_000 * Math.sin((2 * Math.PI * frame) / cycle)), true);
  return new Uint8Array(view.buffer);
}

function list(type: string, chunks: readonly Uint8Array[]): Uint8Array {
  return chunk('LIST', [text(type), ...chunks]);
}

function chunk(id: string, data: readonly Uint8Array[]): Uint8Array {
  const all = join(...data);
  return join(text(id), long(all.length), all, new Uint8Array(all.length % 2));
}

function join(...parts: readonly Uint8Array[]): Uint8Array {
  return new Uint8Array(Buffer.concat(parts));
}

function text(characters: string): Uint8Array {
  return new TextEncoder().encode(characters);
}

function name(characters: string): Uint8Array {
  return text(characters.padEnd(20, '\0'));
}

function word(value: number): Uint8Array {
  return Uint8Array.of(value & 255, (value >> 8) & 255);
}

function long(value: number): Uint8Array {
  return join(word(value & 0xffff), word(value >>> 16));
}
