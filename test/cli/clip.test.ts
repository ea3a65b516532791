import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';
import { bytesOf, textAt, trackOf } from '../support/song.js';

const cwd = scratchFolder();
const map = resolve('maps/saltmarsh-horns.yaml');
const run = (words: string) => keyslip(words.split(' '), { cwd });
const put = (name: string, content: Uint8Array) => {
  writeFileSync(join(cwd, name), content);
  return name;
};
const line = [0, 480, 960].map((tick) => ({ tick, end: tick + (tick === 960 ? 900 : 100), pitch: 50 }));
const horns = put('horns.mid', bytesOf([trackOf(line, [], 'Horns')]));

/** The packets of a clip file as words of 32 bits, behind its 8 bytes of header (M2-116-U, 3.1). */
function words(name: string): readonly number[] {
  const bytes = new Uint8Array(readFileSync(join(cwd, name)));
  expect(new TextDecoder().decode(bytes.subarray(0, 8))).toBe('SMF2CLIP');
  const view = new DataView(bytes.buffer, bytes.byteOffset + 8);
  return Array.from({ length: (bytes.length - 8) / 4 }, (_, index) => view.getUint32(index * 4));
}

/** Note-ons: message type 4, status 9; attribute type in the last byte of the first word (M2-104-UM, 4.2.1). */
function noteOns(name: string): readonly (readonly [pitch: number, attribute: number])[] {
  return words(name).flatMap((word) =>
    word >>> 28 === 4 && ((word >>> 20) & 0xf) === 9 ? [[(word >>> 8) & 0x7f, word & 0xff] as const] : [],
  );
}

describe('a clip', () => {
  it('is written where the name of the output asks for it: every note with its articulation, no switches', () => {
    const { status, out, err } = run(`compile ${horns} --map ${map} -o out.midi2 --prove`);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toContain('horns.mid → out.midi2');
    expect(out).toContain('Written as a clip: notes carry their articulations, and no switches are in it.');
    // Saltmarsh's staccatos are class 0x11 of M2-123-UM (staccatos and shorts), its sustain 0x10.
    expect(noteOns('out.midi2')).toEqual([
      [50, 0x11],
      [50, 0x11],
      [50, 0x10],
    ]);
  });

  it('of a cue has all of its parts', () => {
    const cue = resolve('maps/demo/skerry-point.cue.yaml');
    expect(run(`cue ${cue} -o cue.midi2`).status).toBe(0);
    expect(run(`cue ${cue} -o cue.mid --report cue.json`).status).toBe(0);
    const { parts } = JSON.parse(readFileSync(join(cwd, 'cue.json'), 'utf8')) as {
      parts: readonly { notes: readonly unknown[] }[];
    };
    expect(noteOns('cue.midi2').length).toBe(parts.reduce((sum, { notes }) => sum + notes.length, 0));
  });

  it('tells what of the music is not in it', () => {
    put('words.mid', bytesOf([trackOf(line, [textAt(0, 'softly'), textAt(0, '[legato]')], 'Horns')]));
    const { status, err } = run(`compile words.mid --map ${map} -o words.midi2`);
    expect(status).toBe(0);
    expect(err).toContain('words.mid: warning [clip-left-out]: 1 texts');
    expect(run(`compile words.mid --map ${map} -o strict.midi2 --strict`).status).toBe(1);
    expect(existsSync(join(cwd, 'strict.midi2'))).toBe(false);
  });

  it('is refused for music that counts frames', () => {
    put('smpte.mid', bytesOf([trackOf(line)], { smpte: { framesPerSecond: 25, ticksPerFrame: 40 } }));
    const { status, err } = run(
      `compile smpte.mid --map ${resolve('maps/general-midi-brass.yaml')} -o smpte.midi2`,
    );
    expect(status).toBe(1);
    expect(err).toContain('smpte.mid: error [clip-resolution]');
  });
});
