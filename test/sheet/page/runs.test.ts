import { expect, it } from 'vitest';
import { runsOf } from '../../../src/sheet/page/runs.js';
import { sheetNote, sheetPart, sheetSwitch } from './support.js';

const long = (tick: number, switchTick: number | null = null) =>
  sheetNote(`l${tick}`, tick, { articulation: 'long', switchTick });
const short = (tick: number, switchTick: number | null = null) =>
  sheetNote(`s${tick}`, tick, { articulation: 'short', switchTick });

it('notes with one articulation are one, up to the end of the last or to the next run', () => {
  const notes = [long(0), long(1000), short(1100), long(2000)];
  expect(runsOf(sheetPart({ notes }))).toEqual([
    { articulation: 'long', from: 0, to: 1100 },
    { articulation: 'short', from: 1100, to: 1340 },
    { articulation: 'long', from: 2000, to: 2240 },
  ]);
});

it('what is sent stands where it is sent: once for a chord, again where it is sent again; not what layers send', () => {
  const notes = [short(100, 80), short(101, 80), short(500), short(900, 880)];
  const of = (tick: number, more = {}) => sheetSwitch(tick, { articulation: 'short', ...more });
  const switches = [of(80, { sent: 'C1' }), of(880, { sent: 'C1' }), of(80, { sent: 'D1', layer: 'bite' })];
  expect(runsOf(sheetPart({ notes, switches }))).toEqual([
    { articulation: 'short', from: 100, to: 740, switched: { tick: 80, sent: 'C1' } },
    { articulation: 'short', from: 900, to: 1140, switched: { tick: 880, sent: 'C1' } },
  ]);
});
