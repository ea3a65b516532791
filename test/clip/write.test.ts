import fc from 'fast-check';
import JZZ from 'jzz';
import smf from 'jzz-midi-smf';
import { describe, expect, it } from 'vitest';
import { type Clip, type ClipPart, scaleUp, writeClip } from '../../src/clip/index.js';
import { type Meaning, readMeaning } from '../../src/map/meaning/index.js';

smf(JZZ);

function meaning(name: string): Meaning {
  const read = readMeaning(name);
  if (read.kind !== 'known') throw new Error(name);
  return read.meaning;
}

const part = (more: Partial<ClipPart> = {}): ClipPart => {
  return { name: 'Violins', group: 0, channel: 0, notes: [], messages: [], ...more };
};
const clip = (more: Partial<Clip> = {}): Clip => {
  return { ticksPerQuarter: 96, tempos: [], signatures: [], parts: [part()], endTick: 0, ...more };
};
const bytesOf = (written: Clip): Uint8Array => {
  const { bytes, diagnostics } = writeClip(written);
  if (!bytes) throw new Error(JSON.stringify(diagnostics));
  return bytes;
};
const hex = (bytes: Uint8Array) => Buffer.from(bytes).toString('hex').toUpperCase();
const golden = (text: string) => text.replace(/[^0-9A-F]/gu, '');

/** A clip as an outside reader has it (jzz-midi-smf, MIT). */
interface ReadMessage extends ReadonlyArray<number> {
  readonly tt: number;
}
function readBack(bytes: Uint8Array) {
  const Reader = (JZZ.MIDI as unknown as { Clip: new (text: string) => unknown }).Clip;
  const read = new Reader(Buffer.from(bytes).toString('latin1')) as ArrayLike<ReadMessage> & {
    readonly ppqn: number;
    readonly header: ArrayLike<ReadMessage>;
    validate(): readonly { readonly msg: string }[] | undefined;
  };
  return {
    ppqn: read.ppqn,
    header: Array.from(read.header),
    messages: Array.from(read),
    complaints: (read.validate() ?? []).map(({ msg }) => msg),
  };
}

/** M2-116-U 1.0: file header; DCS 0 and DCTPQ; tempo of 120 (50,000,000 × 10 ns) and 4/4; start of clip. */
const opening = `534D4632434C4950
  00400000 00300060
  00400000 D0100000 02FAF080 00000000 00000000
  00400000 D0100001 04020800 00000000 00000000
  00400000 F0200000 00000000 00000000 00000000
  00400000 D0100000 02FAF080 00000000 00000000
  00400000 D0100001 04020800 00000000 00000000`;

describe('writeClip', () => {
  it('writes an empty clip byte by byte', () => {
    const end = '00400180 F0210000 00000000 00000000 00000000';
    expect(hex(bytesOf(clip({ endTick: 384 })))).toBe(golden(opening + end));
  });

  it('writes notes with 16-bit velocities, and the articulation in each (M2-123-UM 1.0)', () => {
    const bytes = bytesOf(
      clip({
        parts: [
          part({
            group: 1,
            channel: 2,
            notes: [
              { tick: 0, endTick: 48, pitch: 60, velocity: 64, meaning: meaning('spiccato') },
              {
                tick: 48,
                endTick: 96,
                pitch: 67,
                velocity: 127,
                releaseVelocity: 30,
                meaning: meaning('up-bow'),
              },
            ],
          }),
        ],
      }),
    );
    const profile = `31167E02 0D22027F 31267F7F 7F7F7F7F 31267F7E 21010101 31320000 00000000`;
    const [head = '', ...rest] = golden(opening).replaceAll('D0100', 'D1100').split('0040000000300060');
    const notes = `00400000 4192 3C11 8000 5000
      00400030 4182 3C00 8000 0000
      00400000 4192 4310 FFFF 0080
      00400030 4182 4300 3C00 0000
      00400000 F0210000 00000000 00000000 00000000`;
    expect(hex(bytes)).toBe(`${head}${golden(profile)}0040000000300060${rest.join('')}${golden(notes)}`);
  });

  it('scales controllers to 32 bits, and joins what MIDI 1.0 says in several messages', () => {
    const messages: ClipPart['messages'] = [
      { kind: 'controller', tick: 0, number: 1, value: 96 },
      { kind: 'controller', tick: 0, number: 0, value: 5 },
      { kind: 'controller', tick: 0, number: 32, value: 3 },
      { kind: 'program', tick: 0, program: 48 },
      { kind: 'controller', tick: 0, number: 101, value: 0 },
      { kind: 'controller', tick: 0, number: 100, value: 1 },
      { kind: 'controller', tick: 0, number: 6, value: 64 },
      { kind: 'bend', tick: 0, value: 8192 },
      { kind: 'pressure', tick: 0, value: 127 },
      { kind: 'key pressure', tick: 0, pitch: 60, value: 70 },
      { kind: 'sysex', tick: 0, data: [0x7e, 0x7f, 9, 1] },
    ];
    const expected = `00400000 40B00100 C1041041
      00400000 40C00001 30000503
      00400000 40200001 80000000
      00400000 40E00000 80000000
      00400000 40D00000 FFFFFFFF
      00400000 40A03C00 8C30C30C
      00400000 30047E7F 09010000
      00400000 F0210000 00000000 00000000 00000000`;
    expect(hex(bytesOf(clip({ parts: [part({ messages })] })))).toBe(golden(opening + expected));
  });

  it('sets the mute where it changes, and the place on the string for each note', () => {
    const note = (tick: number, name: string) => {
      return { tick, endTick: tick + 9, pitch: 60, velocity: 64, meaning: meaning(name) };
    };
    const notes = [
      note(0, 'con sord.'),
      note(10, 'con sord.'),
      note(20, 'half-muted'),
      note(30, 'sul pont.'),
      note(40, 'sul pont.'),
      note(50, 'arco'),
    ];
    const { messages } = readBack(bytesOf(clip({ parts: [part({ notes })] })));
    const words = messages.map((one) => Buffer.from(one).toString('hex').toUpperCase());
    expect(words.filter((word) => /^4[0-9A-F]?[02]0/u.test(word))).toEqual([
      '4020202208000000', // standard mute
      '4020202268000000', // hand …
      '4020202380000000', // … half in
      '4020202200000000', // none
      '40003C0C08000000', // near the bridge
      '40003C0C80000000', // as usual again: it would stay with the pitch
    ]);
  });

  it('puts a null message between clockstamps where the time is longer than one can say', () => {
    const bytes = bytesOf(clip({ endTick: 0xfffff + 1 }));
    expect(hex(bytes)).toContain(golden('004FFFFF 00000000 00400001 F0210000'));
    expect(hex(bytesOf(clip({ endTick: 0xfffff })))).toContain(golden('004FFFFF F0210000'));
  });

  it('tells all faults, and writes nothing then', () => {
    const { bytes, diagnostics } = writeClip({
      ticksPerQuarter: 0,
      tempos: [{ tick: 0, microsecondsPerQuarter: 0 }],
      signatures: [{ tick: 0, numerator: 4, denominator: 3 }],
      parts: [part(), part({ name: 'Cellos' }), part({ group: 16 })],
      endTick: 0,
    });
    expect(bytes).toBeUndefined();
    expect(diagnostics.map(({ code }) => code)).toEqual([
      'clip-resolution',
      'clip-tempo',
      'clip-signature',
      'clip-channel',
      'clip-channel',
    ]);
  });

  const notes = fc.array(
    fc.record({
      tick: fc.nat(2000),
      length: fc.integer({ min: 1, max: 500 }),
      pitch: fc.integer({ min: 0, max: 127 }),
      velocity: fc.integer({ min: 1, max: 127 }),
      name: fc.constantFrom('staccato', 'pizz.', 'legato', 'tremolo', '15/2/3', undefined),
    }),
    { maxLength: 30 },
  );

  it('is read by an outside reader as it was meant', () => {
    fc.assert(
      fc.property(notes, notes, (first, second) => {
        const channels = [first, second].map((list, index) =>
          part({
            channel: index,
            notes: list.map(({ tick, length, pitch, velocity, name }) => {
              return {
                tick,
                endTick: tick + length,
                pitch,
                velocity,
                ...(name ? { meaning: meaning(name) } : {}),
              };
            }),
          }),
        );
        const whole = clip({ parts: channels });
        const bytes = bytesOf(whole);
        expect(hex(bytes)).toBe(hex(bytesOf(whole)));
        const read = readBack(bytes);
        expect(read.ppqn).toBe(96);
        // That reader wants a clockstamp before "set profile on", which M2-116-U, 6 forbids.
        const profiles = read.header.filter((one) => (one[0] ?? 0) >> 4 === 3).length;
        expect(read.complaints.filter((one) => !one.startsWith('Missing Delta'))).toEqual([]);
        expect(read.complaints).toHaveLength(Math.max(0, profiles - 1));
        const heard = read.messages
          .filter((one) => (one[0] ?? 0) >> 4 === 4 && (one[1] ?? 0) >> 4 === 9)
          .map(
            (one) =>
              `${one.tt} ${(one[1] ?? 0) & 15} ${one[2]} ${(one[4] ?? 0) * 256 + (one[5] ?? 0)} ${one[3]}`,
          );
        const meant = channels.flatMap(({ channel, notes: own }) =>
          own.map((one) => {
            const type = one.meaning?.articulation?.type ?? 0;
            return `${one.tick} ${channel} ${one.pitch} ${scaleUp(one.velocity, 7, 16)} ${type}`;
          }),
        );
        expect(heard.sort()).toEqual(meant.sort());
        const offs = read.messages.filter((one) => (one[0] ?? 0) >> 4 === 4 && (one[1] ?? 0) >> 4 === 8);
        expect(offs).toHaveLength(meant.length);
      }),
    );
  });
});
