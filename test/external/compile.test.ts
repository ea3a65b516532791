import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type MidiEvent, parseMidi } from 'midi-file';
import { afterAll, describe, expect, it } from 'vitest';
import { proofOf } from '../../src/api/proof.js';
import { partsOf } from '../../src/compile/analyse/index.js';
import { type CompiledPart, compile } from '../../src/compile/index.js';
import { channelFor } from '../../src/map/index.js';
import { readMap } from '../../src/map/read/index.js';
import { readMidi } from '../../src/midi/read/index.js';
import { basesIn } from '../support/bases.js';
import { decisionsIn } from '../support/decided.js';
import { midicsv, realFiles } from './real.js';

const folder = mkdtempSync(join(tmpdir(), 'keyslip-external-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const maps = readdirSync('maps')
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => {
    const { value } = readMap(new Uint8Array(readFileSync(join('maps', name))), name, {
      bases: basesIn('maps'),
    });
    if (!value) throw new Error(`${name} has errors`);
    return value;
  })
  // Event by event the input is in the output only where notes go out as they were played; the prover undoes the rest.
  .filter(
    ({ transpose, articulations }) =>
      transpose === 0 &&
      [...articulations.values()].every(({ key, velocity }) => key === undefined && !velocity),
  );

/** The events of a track with absolute ticks, as midi-file reads them; running status aside. */
function eventsOf(bytes: Uint8Array, track: number): readonly { tick: number; event: MidiEvent }[] {
  let tick = 0;
  return (parseMidi(bytes).tracks[track - 1] ?? []).map((event) => {
    tick += event.deltaTime;
    return { tick, event };
  });
}

/** Events as text; notes without their channel where they may have been sent to another. */
function texts(bytes: Uint8Array, track: number, routes: boolean): readonly string[] {
  return eventsOf(bytes, track).map(({ tick, event }) => {
    const { deltaTime: _, running: __, ...rest } = event as MidiEvent & { running?: boolean };
    const isNote = rest.type === 'noteOn' || rest.type === 'noteOff';
    return `${tick} ${JSON.stringify(routes && isNote ? { ...rest, channel: '' } : rest)}`;
  });
}

/** How many events are left when the input is taken out of the output in order; undefined where it is not in it. */
function leftOver(output: readonly string[], input: readonly string[]): number | undefined {
  let next = 0;
  let left = 0;
  for (const event of output) {
    if (event === input[next]) next += 1;
    else left += 1;
  }
  return next === input.length ? left : undefined;
}

function caseFor(file: string, { part, map, decided }: CompiledPart): unknown {
  const decisions = decisionsIn({ decided });
  const messages = [...map.articulations.values()].flatMap((articulation) => articulation.switch);
  const channels = new Set(decisions.map(({ articulation }) => channelFor(map, articulation, part.channel)));
  return {
    file,
    track: part.track,
    channels: [...channels],
    keys: Object.fromEntries(
      messages.flatMap((message) => (message.kind === 'note' ? [[message.key, message.aspect ?? null]] : [])),
    ),
    momentary: map.switching.notes === 'momentary',
    notes: decisions.map(({ note, articulation }) => ({
      tick: note.tick,
      pitch: note.pitch,
      channel: channelFor(map, articulation, part.channel),
      wanted: map.articulations.get(articulation)?.switch ?? [],
    })),
  };
}

const tally = { compiled: 0, collided: 0 };

for (const { name, bytes } of realFiles())
  describe(name, () => {
    const { value: song } = readMidi(bytes, name);
    if (!song) throw new Error(`${name} cannot be read`);
    const parts = song.tracks.flatMap(partsOf);

    for (const map of maps)
      it(`every part that ${map.file} does not collide with keeps its events, and is switched as decided`, () => {
        const cases: unknown[] = [];
        for (const part of parts) {
          const { value } = compile(song, [{ part, map }]);
          const [done] = value?.parts ?? [];
          if (!value || !done) {
            tally.collided += 1;
            continue;
          }
          tally.compiled += 1;
          expect(compile(song, [{ part, map }]).value?.bytes).toEqual(value.bytes);
          const routes = map.file === 'gull-chapel-choir.yaml';
          const left = leftOver(texts(value.bytes, part.track, routes), texts(bytes, part.track, routes));
          expect(left).toBe(done.switched.insertions.length);
          const file = join(folder, `${name}-${map.file}-${part.track}-${part.channel}.mid`);
          writeFileSync(file, value.bytes);
          expect(midicsv(value.bytes).startsWith('0, 0, Header')).toBe(true);
          cases.push(caseFor(file, done));
          const heard = readMidi(value.bytes, file).value;
          if (!heard) throw new Error(`${file} cannot be read`);
          expect(proofOf(heard, song, value, true).violations).toEqual([]);
        }
        // Debian's own Python: another one on the PATH would not have the module.
        const found = execFileSync('/usr/bin/python3', ['test/external/in_force.py'], {
          input: JSON.stringify(cases),
          encoding: 'utf8',
          maxBuffer: 1 << 28,
        });
        expect(JSON.parse(found)).toEqual([]);
      });
  });

it('the maps are tried on enough parts to mean something', () => {
  console.log(`${tally.compiled} parts compiled, ${tally.collided} refused because they collide`);
  expect(tally.compiled).toBeGreaterThan(1000);
});
