import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { partsOf } from '../../../src/compile/analyse/index.js';
import { compileParts } from '../../../src/compile/index.js';
import { readMap } from '../../../src/map/read/index.js';
import { readMidi } from '../../../src/midi/read/index.js';
import { sheetOf } from '../../../src/sheet/collect.js';
import { type Engraver, makeEngraver } from '../../../src/sheet/engrave/index.js';
import { notate } from '../../../src/sheet/notate/index.js';
import { pageOf } from '../../../src/sheet/page/index.js';
import { scoreOf } from '../../../src/sheet/score.js';
import { realFiles } from '../real.js';

const file = 'maps/general-midi-strings.yaml';
const { value: map } = readMap(new Uint8Array(readFileSync(file)), file);
if (!map) throw new Error(`${file} has errors`);

let engrave: Engraver;
beforeAll(async () => {
  engrave = await makeEngraver();
});

describe('a sheet of a real file', () => {
  for (const { name, bytes } of realFiles())
    it(`has every note of ${name}, where the engraver drew it`, () => {
      const { value: song } = readMidi(bytes, name);
      if (!song) throw new Error(`${name} cannot be read`);
      const jobs = song.tracks.flatMap(partsOf).map((part) => ({ part, map }));
      const { parts, tracks, diagnostics } = compileParts(song, jobs);
      const named = parts.map((compiled, index) => ({ compiled, name: `${index}` }));
      const sheet = sheetOf({ title: name, song, tracks, jobs: named, diagnostics });
      const notation = notate(scoreOf(sheet));
      const systems = engrave(notation.mei);
      expect(systems).toHaveLength((notation.bars.at(-1)?.system ?? -1) + 1);
      const places = new Set(systems.flatMap((system) => [...system.places.keys()]));
      const ids = sheet.parts.flatMap(({ notes }) => notes.map(({ id }) => id));
      expect(ids.length).toBeGreaterThan(100);
      expect(ids.filter((id) => !places.has(id))).toEqual([]);
      const page = pageOf(sheet, notation, systems);
      expect(page.match(/class="head"/gu)).toHaveLength(ids.length);
    });
});
