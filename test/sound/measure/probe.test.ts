import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { readMap } from '../../../src/map/index.js';
import { possiblePlans, probe, probedLibrary } from '../../../src/sound/measure/index.js';

function mapOf(name: string) {
  const base = 'shared/slate-quay.yaml';
  const bases = { folder: '', texts: new Map([[base, new Uint8Array(readFileSync(join('maps', base)))]]) };
  const { value } = readMap(new Uint8Array(readFileSync(join('maps', name))), name, { bases });
  if (!value) throw new Error(`${name} has errors`);
  return value;
}

describe('the probe of a map', () => {
  it.each(readdirSync('maps').filter((name) => name.endsWith('.yaml')))('%s', (name) => {
    const map = mapOf(name);
    const { plan, midi, click, text } = probe(map, { quick: true });
    const names = new Set(plan.slots.map(({ articulation }) => articulation));
    expect([...names].toSorted()).toEqual([...map.articulations.keys()].toSorted());
    expect(parseMidi(midi).tracks).toHaveLength(1);
    expect(midi).toEqual(probe(map, { quick: true }).midi);
    const [header] = click();
    expect(Buffer.from(header?.subarray(0, 4) ?? []).toString()).toBe('RIFF');
    const minutes = /(\d+):(\d\d) minutes/u.exec(text);
    expect(60 * Number(minutes?.[1]) + Number(minutes?.[2])).toBe(Math.ceil(plan.seconds));
    expect(possiblePlans(probedLibrary(map))).toContainEqual(plan);
  });

  it('takes from the map what sustains, what joins, and how loudness is made', () => {
    const { articulations, controller, isMomentary, switchVelocity } = probedLibrary(
      mapOf('lantern-street-strings.yaml'),
    );
    expect({ controller, isMomentary, switchVelocity }).toEqual({
      controller: 11,
      isMomentary: true,
      switchVelocity: 90,
    });
    expect(
      Object.fromEntries(
        articulations.map(({ name, sustains, overlapMs, loudness }) => [
          name,
          [sustains, overlapMs, loudness],
        ]),
      ),
    ).toEqual({
      long: [true, undefined, 'controller'],
      spiccato: [false, undefined, 'velocity'],
      slurred: [true, 30, 'controller'],
      plucked: [false, undefined, 'velocity'],
      trembling: [true, undefined, 'controller'],
      run: [false, undefined, 'velocity'],
    });
  });
});
