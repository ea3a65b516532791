import { expect, it } from 'vitest';
import { partHeading } from '../../src/midi/heading.js';

it('counts tracks and channels from 1, and leaves out a name that is not there', () => {
  expect(partHeading({ track: 2, trackName: 'Horns', channel: 0 })).toBe('Track 2 "Horns", channel 1');
  expect(partHeading({ track: 1, trackName: '', channel: 15 })).toBe('Track 1, channel 16');
});

it('shows control characters of a name as text', () => {
  expect(partHeading({ track: 1, trackName: 'a\u001b[31m', channel: 0 })).not.toContain('\u001b');
});
