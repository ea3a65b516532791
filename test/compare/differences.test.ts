import { describe, expect, it } from 'vitest';
import { compareArticulations } from '../../src/compare/index.js';
import { articulationsText } from '../../src/report/comparison-text.js';
import { readWhole } from '../support/map.js';

interface Said {
  readonly library?: string;
  readonly middle?: string;
  readonly range?: string;
  readonly more?: string;
  readonly sound?: string;
}

const map = ({ library = 'Weir Brass', middle = 'C4', range = '[F3, C6]', more = '', sound = '' }: Said) =>
  readWhole(
    `format: keyslip-map/1\nlibrary: ${library}\ninstrument: Horns\nfamily: brass\nnote-60: ${middle}\nrange: ${range}\n${more}articulations:\n  slur: {means: [legato]${sound}}\nrules:\n  - {use: slur}\n`,
  );
const text = (a: Said, b: Said) =>
  articulationsText(compareArticulations(map(a), map(b)), map(a), map(b)).split('\n');

describe('what two maps differ in', () => {
  it('is nothing where they are alike', () => {
    expect(text({}, {})).toEqual(['']);
  });

  it('is the range in keys, however each manual spells them', () => {
    // One octave apart in spelling: F3 with middle C4 is MIDI note 53, and so is F2 with middle C3.
    expect(text({}, { middle: 'C3', range: '[F2, C5]' })).toEqual(['']);
    expect(text({}, { middle: 'C3' })).toEqual(['Range: F3 to C6 (53 to 84) → F3 to C6 (65 to 96)']);
  });

  it('is the controller of the dynamics, and each level', () => {
    const dynamics = (controller: number, levels: string) => ({
      more: `dynamics: {controller: ${controller}, levels: {${levels}}}\n`,
    });
    expect(text(dynamics(1, 'p: 30, mf: 70, ff: 110'), dynamics(11, 'p: 30, mf: 64, f: 90'))).toEqual([
      'Dynamics on controller: 1 → 11',
      'Levels: mf 70 → 64, f none → 90, ff 110 → none',
    ]);
    expect(text({}, dynamics(2, 'p: 30'))).toEqual([
      'Dynamics on controller: none → 2',
      'Levels: p none → 30',
    ]);
  });

  it('is what makes an articulation loud', () => {
    expect(
      text({ sound: ', loudness: velocity' }, { sound: ', loudness: controller, velocity: {into: [1, 40]}' }),
    ).toEqual(
      expect.arrayContaining([
        'Loudness by:',
        '  slur: velocity → controller, velocities as played → 1 to 40',
      ]),
    );
  });

  it('is how late an articulation is heard, how far it overlaps, and how early its switch comes', () => {
    const steps = (first: string) =>
      `, speaks-after: [{when: {leap: {to: ${first}}}, is: 90ms}, {is: 1/16}], joins: {overlap: 40ms}`;
    const late = { more: 'switching: {lead: 40ms}\n', sound: steps('4') };
    expect(text({ sound: ', speaks-after: 140ms' }, late)).toEqual([
      'Switches are sent ahead by: 20ms → 40ms',
      'Heard later or earlier, or joined otherwise:',
      '  slur: speaks after 140ms → 90ms, 1/16; overlap none → 40ms',
    ]);
    // The same times for other notes are a difference too.
    expect(text(late, { ...late, sound: steps('7') })).toEqual([
      'Heard later or earlier, or joined otherwise:',
      '  slur: speaks after 90ms, 1/16, for other notes',
    ]);
  });

  it('is told in another library of what means the same', () => {
    const other = readWhole(
      'format: keyslip-map/1\nlibrary: Mill Brass\ninstrument: Horns\nfamily: brass\nnote-60: C4\nrange: [F3, C6]\narticulations:\n  tied: {means: [legato], speaks-after: 60ms}\nrules:\n  - {use: tied}\n',
    );
    const own = map({ sound: ', speaks-after: 90ms' });
    expect(articulationsText(compareArticulations(own, other), own, other).split('\n')).toEqual([
      'By what they mean, Weir Brass, Horns → Mill Brass, Horns:',
      '  slur → tied (same meaning)',
      'Heard later or earlier, or joined otherwise:',
      '  slur → tied: speaks after 90ms → 60ms',
    ]);
  });
});
