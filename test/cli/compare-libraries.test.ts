import { cpSync } from 'node:fs';
import { join } from 'node:path';
import Ajv from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { reportSchema } from '../../src/report/schema/index.js';
import { scratchFolder } from '../support/cli.js';
import { runHere } from '../support/in-process.js';

const cwd = scratchFolder();
cpSync('test/cases/piece', cwd, { recursive: true });
const at = (name: string) => join(cwd, name);
const [old, other, take] = [at('maps/tallow-horns.yaml'), at('maps/marrow-horns.yaml'), at('take.mid')];
const compare = (...words: readonly string[]) => runHere(['compare', ...words]);
const validate = new Ajv.default({ allErrors: true, allowUnionTypes: true }).compile(reportSchema());

describe('keyslip compare of two libraries', () => {
  it('says what each articulation becomes, and how, and what is lost', async () => {
    const { status, out, err } = await compare(old, other, take, '--track', 'Horns');
    expect([status, err]).toEqual([1, '']);
    // The meanings as the maps say them, matched by hand after M2-123-UM 1.0, 6.1.
    expect(out).toContain(
      [
        'By what they mean, Tallow Brass, Horns a4 → Marrowgate Brass, Horns a6:',
        '  sustain → long (same meaning)',
        '  staccato → spic (same meaning)',
        '  marcato → long (plain sound of its class)',
        '  legato → slur (same meaning)',
        '  stopped is lost: nothing there means stopped',
        'Range: F2 to F5 (41 to 77) → F3 to C6 (41 to 72)',
        'Dynamics on controller: 1 → 11',
      ].join('\n'),
    );
    expect(out).toContain('3 of 150 notes change articulation\n');
    expect(out).toContain('  bar 20: marcato → long (plain sound of its class), F5 at 20.3\n');
  });

  it('says the same in JSON, in the shape of the schema', async () => {
    const { out } = await compare(old, other, take, '--track', 'Horns', '--json');
    const printed = JSON.parse(out) as Record<string, unknown>;
    expect([validate(printed), validate.errors]).toEqual([true, null]);
    expect(printed).toMatchObject({
      format: 'keyslip-report/1',
      notes: 150,
      changes: 3,
      articulations: {
        onlyA: ['stopped'],
        onlyB: [],
        becomes: [
          { from: 'sustain', to: 'long', likeness: 'same' },
          { from: 'staccato', to: 'spic', likeness: 'same' },
          { from: 'marcato', to: 'long', likeness: 'plain' },
          { from: 'legato', to: 'slur', likeness: 'same' },
          { from: 'stopped', to: null, likeness: 'lost' },
        ],
        range: { from: { low: 41, high: 77 }, to: { low: 41, high: 72 } },
        lead: { from: '30ms', to: '40ms' },
      },
    });
    const examples = await compare(old, other, '--json');
    expect([validate(JSON.parse(examples.out)), validate.errors]).toEqual([true, null]);
  });

  it('tells what is lost to what runs it too', async () => {
    const { out } = await compare(old, other, '--format', 'sarif');
    expect(out).toContain('"ruleId": "meaning-lost"');
    expect((await compare(old, other, '--format', 'github')).out).toContain('stopped is lost');
  });

  it('changes nothing in a library by another instrument of it, which means the same', async () => {
    const { status, out } = await compare(old, at('maps/tallow-trumpets.yaml'));
    expect([status, out.includes('sustain → sustain (same meaning)')]).toEqual([0, true]);
  });

  it('goes by names where both are the same library', async () => {
    const { status, out } = await compare(old, old, take, '--track', 'Horns');
    expect([status, out]).toEqual([0, 'No articulation changes in 150 notes compared.\n']);
  });
});
