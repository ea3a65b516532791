/** A small seeded generator (mulberry32, public domain), so that every case can be made again from its number. */
export function generator(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

export function pick<T>(random: () => number, from: readonly T[]): T {
  const item = from[Math.floor(random() * from.length)];
  if (item === undefined) throw new Error('nothing to pick from');
  return item;
}

const telling = [0, 1, 0x2f, 0x40, 0x51, 0x58, 0x7f, 0x80, 0x90, 0xb0, 0xc0, 0xf0, 0xf7, 0xfe, 0xff];

/** Changes bytes, takes some out, doubles some, cuts the end off, or splices in a piece of another file. */
export function mutateBytes(bytes: Uint8Array, other: Uint8Array, random: () => number): Uint8Array {
  let result = Array.from(bytes);
  const changes = 1 + Math.floor(random() ** 2 * 6);
  for (let change = 0; change < changes; change++) {
    const at = Math.floor(random() * (result.length + 1));
    const length = 1 + Math.floor(random() ** 3 * 40);
    switch (Math.floor(random() * 7)) {
      case 0:
        result[at] = Math.floor(random() * 256);
        break;
      case 1:
        result[at] = pick(random, telling);
        break;
      case 2:
        result.splice(at, length);
        break;
      case 3:
        result.splice(at, 0, ...result.slice(at, at + length));
        break;
      case 4:
        result = result.slice(0, at);
        break;
      case 5: {
        const from = Math.floor(random() * other.length);
        result.splice(at, length, ...other.slice(from, from + length));
        break;
      }
      default:
        result[at] = (result[at] ?? 0) ^ (1 << Math.floor(random() * 8));
    }
  }
  return Uint8Array.from(result, (byte) => byte ?? 0);
}

const yamlBits = [
  ...[
    '',
    ' ',
    '\t',
    '\n',
    ':',
    '- ',
    '{',
    '}',
    '[',
    ']',
    '&a ',
    '*a',
    '!!js ',
    '|',
    '>',
    '"',
    "'",
    '#',
    '%',
    '@',
    '`',
  ],
  ...[
    '~',
    'null',
    'true',
    '.nan',
    '-.inf',
    '1e999',
    '-1',
    '128',
    '0x10',
    '1/0',
    '0/1',
    '9999999ms',
    '-5ms',
    '1/16',
    '15%',
  ],
  ...[
    'C0',
    'C99',
    'H3',
    '__proto__: {}',
    'constructor: x',
    '<<: *a',
    '? x',
    '...',
    '---',
    '\u202e',
    '\u0000',
    '\ufeff',
    '\u{1f3ba}',
  ],
];

/** Changes a text: lines out, doubled, swapped or indented; telling bits put in or in place of words. */
export function mutateText(text: string, random: () => number): string {
  let lines = text.split('\n');
  const changes = 1 + Math.floor(random() ** 2 * 5);
  for (let change = 0; change < changes; change++) {
    if (lines.length === 0) lines = [''];
    const at = Math.floor(random() * lines.length);
    const line = lines[at] ?? '';
    const column = Math.floor(random() * (line.length + 1));
    switch (Math.floor(random() * 7)) {
      case 0:
        lines.splice(at, 1);
        break;
      case 1:
        lines.splice(at, 0, pick(random, lines));
        break;
      case 2:
        lines[at] = ' '.repeat(Math.floor(random() * 5)) + line.trimStart();
        break;
      case 3:
        lines[at] = line.slice(0, column) + pick(random, yamlBits) + line.slice(column);
        break;
      case 4:
        lines[at] = line.replace(/[^\s:,[\]{}]+(?=[^:]*$)/u, () => pick(random, yamlBits));
        break;
      case 5:
        lines[at] = line.slice(0, column) + line.slice(column + 1 + Math.floor(random() * 3));
        break;
      default:
        lines = lines.slice(0, at + 1);
    }
  }
  return lines.join('\n');
}

const words = [
  ...[
    'compile',
    'check',
    'explain',
    'init',
    'schema',
    'prove',
    'help',
    '--help',
    '--version',
    '-',
    '--',
    '-o',
    '--output',
  ],
  ...[
    '--map',
    '--track',
    '--channel',
    '--at',
    '--json',
    '--quiet',
    '--strict',
    '--report',
    '--in-place',
    '--max-midi',
  ],
  ...[
    '--max-map',
    '-1',
    '0',
    '1',
    '99999999999',
    '1.5',
    'NaN',
    '',
    ' ',
    '=',
    'Horns=',
    '=x',
    'in.mid',
    'map.yaml',
    '2..1',
  ],
  ...[
    '3.2..5',
    '1..',
    // Of the whole machine it depends what is found, and how soon.
    '/dev',
    '.',
    '..',
    'missing/x',
    '\u0000',
    '\n',
    '\u001b[31m',
    '\u202e',
    '%s',
    '$(x)',
    '--__proto__',
    '*',
  ],
];

/** A command line of words that mean something, and some that do not. */
export function randomCommand(random: () => number): readonly string[] {
  const length = Math.floor(random() * 9);
  return Array.from({ length }, () => pick(random, words));
}
