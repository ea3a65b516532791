import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bankLimit, checkBank, hearCodes } from '../../../../src/sound/hear/index.js';
import { readLibrary } from '../../../../src/sound/hear/synth/library.js';
import { loadBank } from '../../../../src/sound/hear/synth/load.js';
import { draws } from '../../../support/draws.js';
import { testBank } from '../support/bank.js';
import { part, tryRender } from '../support/render.js';

const note = { onsetMs: 0, endMs: 50, pitch: 69, velocity: 100 };

function codeOf(bytes: Uint8Array): string {
  const checked = checkBank(bytes);
  return checked.ok ? 'ok' : checked.problem.code;
}

/** Writes a 16-bit word where a chunk's record has it. */
function changed(bank: Uint8Array, id: string, at: number, value: number): Uint8Array {
  const copy = bank.slice();
  new DataView(copy.buffer).setUint16(Buffer.from(copy.buffer).indexOf(id) + 8 + at, value, true);
  return copy;
}

/** The test's bank as DLS, written by the library. */
async function dlsBank(): Promise<Uint8Array> {
  const library = await readLibrary();
  if (!library.ok) throw new Error(library.problem.message);
  const bank = loadBank(library.value, testBank());
  if (!bank.ok) throw new Error(bank.problem.message);
  return new Uint8Array(await bank.value.writeDLS());
}

describe('checkBank', () => {
  it('takes a SoundFont and a DLS bank, and both are heard', async () => {
    expect(checkBank(testBank())).toEqual({ ok: true, value: 'soundfont' });
    const dls = await dlsBank();
    expect(checkBank(dls)).toEqual({ ok: true, value: 'dls' });
    expect((await tryRender([part({ notes: [note] })], {}, dls)).ok).toBe(true);
  });

  it('refuses each beginning of a bank as cut off, and says how much is missing', async () => {
    for (const bank of [testBank(), await dlsBank()])
      for (let length = 12; length < bank.length; length += 7)
        expect(codeOf(bank.slice(0, length))).toBe('bank-truncated');
    const cut = checkBank(testBank().slice(0, -100));
    expect(cut.ok ? '' : cut.problem.message).toMatch(/but 100 of them are not there/u);
  });

  it('refuses what is no bank', () => {
    expect(codeOf(new Uint8Array(0))).toBe('bank-unknown');
    expect(codeOf(new TextEncoder().encode('MThd'))).toBe('bank-unknown');
    const wave = testBank();
    wave.set(new TextEncoder().encode('WAVE'), 8);
    expect(codeOf(wave)).toBe('bank-unknown');
  });

  it('refuses what is larger than the limit without reading it', () => {
    const huge = Object.defineProperty(new Uint8Array(4), 'length', { value: bankLimit + 1 });
    expect(codeOf(huge)).toBe('bank-too-large');
  });

  it('refuses indices that fall, or lead nowhere', () => {
    // phdr: zone index at 24 of 38; pbag: generator and modulator index; inst: zone index at 20 of 22
    for (const [id, at, value] of [
      ['phdr', 24, 9],
      ['phdr', 38 + 24, 0xffff],
      ['pbag', 4, 77],
      ['pbag', 6, 1],
      ['inst', 22 + 20, 2],
      ['ibag', 0, 3],
      ['ibag', 4, 1000],
    ] as const)
      expect(codeOf(changed(testBank(), id, at, value)), `${id} ${at}`).toBe('bank-structure');
  });

  it('refuses zones and samples that multiply', () => {
    expect(codeOf(testBank({ zones: 10_001 }))).toBe('bank-too-large');
    // 3,000 headers of 4,000 bytes, each of the whole
    const bank = testBank();
    const at = Buffer.from(bank.buffer).indexOf('shdr');
    const head = bank.slice(at + 8, at + 8 + 46);
    const heads = Buffer.concat([...Array(3000).fill(head), head]);
    const grown = Buffer.concat([bank.subarray(0, at + 8), heads]);
    grown.writeUInt32LE(heads.length, at + 4);
    grown.writeUInt32LE(grown.length - 8, 4);
    const pdta = grown.indexOf('pdta') - 4;
    grown.writeUInt32LE(grown.length - pdta - 4, pdta);
    expect(codeOf(new Uint8Array(grown))).toBe('bank-too-large');
  });
});

describe('a hostile bank', () => {
  async function heardBy(bank: Uint8Array): Promise<string> {
    const result = await tryRender([part({ notes: [note] })], {}, bank);
    return result.ok ? 'ok' : result.problem.code;
  }

  it('whose pitch runs away is refused before a note is played', async () => {
    // 51 coarseTune, 56 scaleTuning, 58 overridingRootKey, 5 modLfoToPitch
    expect(
      await heardBy(
        testBank({
          generators: [
            [51, 120],
            [5, 12_000],
          ],
        }),
      ),
    ).toBe('bank-sound');
    expect(
      await heardBy(
        testBank({
          generators: [
            [56, 1200],
            [58, 0],
          ],
        }),
      ),
    ).toBe('bank-sound');
    expect(await heardBy(testBank({ sampleRate: 0xffff_ffff }))).toBe('bank-sound');
    expect(await heardBy(testBank({ sampleRate: 0 }))).toBe('bank-sound');
    expect(await heardBy(testBank({ generators: [[51, 24]] }))).toBe('ok');
  });

  it('that layers hundreds of recordings is refused', async () => {
    expect(await heardBy(testBank({ zones: 65 }))).toBe('bank-sound');
    expect(await heardBy(testBank({ zones: 64 }))).toBe('ok');
  });

  it('whose compressed samples are none is refused', async () => {
    expect(await heardBy(testBank({ type: 0x11 }))).toBe('bank-sound');
  });

  it('of random bytes, or a bank with some of them changed, is a sound or a problem, never an exception', async () => {
    const good = testBank();
    const dls = await dlsBank();
    const bytes = fc.oneof(
      fc.uint8Array({ maxLength: 200 }),
      fc.uint8Array({ maxLength: 200 }).map((rest) => Buffer.concat([Buffer.from('RIFF'), rest])),
      fc
        .tuple(
          fc.constantFrom(good, dls),
          fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.integer({ min: 0, max: 255 })), {
            minLength: 1,
            maxLength: 12,
          }),
        )
        .map(([bank, changes]) => {
          const copy = bank.slice();
          // most bytes are samples, and those are not what goes wrong
          for (const [place, byte] of changes) {
            const head = Math.floor(place * 1000);
            copy[head < 500 ? head : copy.length - head + 499] = byte;
          }
          return copy;
        }),
    );
    await fc.assert(
      fc.asyncProperty(bytes, async (bank) => {
        const code = await heardBy(new Uint8Array(bank));
        expect(['ok', ...Object.keys(hearCodes)]).toContain(code);
      }),
      { numRuns: draws(300) },
    );
  });
});
