import type { SheetNote, SheetPart, SheetSwitch } from '../../../src/sheet/types.js';

export function sheetNote(id: string, tick: number, more: Partial<SheetNote> = {}): SheetNote {
  return {
    id,
    place: null,
    tick,
    endTick: tick + 240,
    pitch: 60,
    velocity: 80,
    isStruck: false,
    articulation: 'sustain',
    why: 'no condition',
    layers: [],
    switchTick: null,
    movedMs: 0,
    heardMs: 0,
    ...more,
  };
}

export function sheetSwitch(tick: number, more: Partial<SheetSwitch> = {}): SheetSwitch {
  return { tick, onsetTick: tick + 24, leadMs: 25, articulation: 'sustain', sent: 'C-2', ...more };
}

export function sheetPart(more: Partial<SheetPart> = {}): SheetPart {
  return {
    name: 'Horns',
    track: 1,
    channel: 0,
    library: 'Saltmarsh Brass',
    instrument: 'Horns',
    family: 'brass',
    mapFile: 'horns.yaml',
    range: { low: 30, high: 80 },
    middleC: 3,
    notes: [],
    switches: [],
    layers: [],
    ...more,
  };
}
