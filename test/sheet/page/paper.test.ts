import { describe, expect, it } from 'vitest';
import { paperFor } from '../../../src/sheet/page/paper.js';

// The sides of A4 (ISO 216) are 297 and 210 mm.
describe('the paper lies', () => {
  it('wide where a system fills it', () => {
    expect(paperFor([{ width: 2400, height: 1500 }])).toBe('landscape');
  });

  it('upright where a system is higher than wide', () => {
    expect(paperFor([{ width: 2400, height: 3200 }])).toBe('upright');
  });

  it('upright where many flat systems fill it, and by the highest of all', () => {
    expect(paperFor([{ width: 2400, height: 480 }])).toBe('upright');
    expect(
      paperFor([
        { width: 2400, height: 480 },
        { width: 2400, height: 1500 },
      ]),
    ).toBe('landscape');
  });
});
