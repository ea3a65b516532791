import { describe, expect, it, vi } from 'vitest';
import { oggSink } from '../../../../src/sound/hear/index.js';
import { part, tryRender } from '../support/render.js';

// as where optional dependencies were left out
vi.mock('spessasynth_core', () => {
  throw new Error('Cannot find package');
});
vi.mock('wasm-media-encoders', () => {
  throw new Error('Cannot find package');
});

describe('without its optional packages', () => {
  it('hearing is a sentence that says what to install', async () => {
    const notes = [{ onsetMs: 0, endMs: 100, pitch: 60, velocity: 80 }];
    expect(await tryRender([part({ notes })])).toMatchObject({
      ok: false,
      problem: { code: 'no-library', hint: 'npm install spessasynth_core' },
    });
  });

  it('so is compressing', async () => {
    expect(await oggSink(() => {})).toMatchObject({
      ok: false,
      problem: { code: 'no-library', hint: 'npm install wasm-media-encoders' },
    });
  });
});
