import { describe, expect, it } from 'vitest';
import { parseYaml } from '../../src/yaml/parse.js';

const parse = (text: string) => parseYaml(new TextEncoder().encode(text), 'x.yaml');
const found = (text: string) =>
  parse(text).diagnostics.map(({ code, place }) =>
    place.kind === 'text' ? `${code} ${place.line}:${place.column}` : code,
  );

describe('YAML', () => {
  it('is version 1.2, whatever a directive says', () => {
    const { value } = parse('%YAML 1.1\n---\n{a: yes, b: 0o17, c: 12:30, <<: {d: 1}}\n');
    expect(value?.root.data).toEqual({ a: 'yes', b: 15, c: '12:30', '<<': { d: 1 } });
  });

  it('may be nested 64 levels deep, in any style, and no deeper', () => {
    expect(parse(`${'['.repeat(64)}${']'.repeat(64)}`).value).toBeDefined();
    expect(found(`${'['.repeat(65)}${']'.repeat(65)}`)).toEqual(['yaml-syntax 1:65']);
    const stairs = (steps: number) =>
      Array.from({ length: steps }, (_, step) => `${' '.repeat(step)}a:`).join('\n');
    expect(parse(stairs(64)).value).toBeDefined();
    expect(found(stairs(65))).toEqual(['yaml-syntax 65:65']);
    expect(found('- '.repeat(65))).toEqual(['yaml-syntax 1:129']);
    expect(found('? '.repeat(65))).toEqual(['yaml-syntax 1:129']);
  });

  it('does not take brackets in comments and texts for nesting', () => {
    expect(parse(`# ${'['.repeat(200)}\na: "${'{'.repeat(200)}"\n`).value?.root.data).toEqual({
      a: '{'.repeat(200),
    });
  });

  it('is indented with spaces', () => {
    expect(parse('a:\n\tb: 1\n').diagnostics).toMatchObject([
      {
        code: 'yaml-syntax',
        place: { line: 2 },
        message: expect.stringContaining('tab'),
        hint: expect.stringContaining('spaces'),
      },
    ]);
  });

  it('has one document, no tags, and no mapping or list for a key', () => {
    expect(found('a: 1\n---\nb: 2\n')).toEqual(['yaml-syntax 2:1']);
    expect(found('a: !thing 1\n')).toEqual(['yaml-syntax 1:4']);
    expect(found('{b: 1, [c]: 2}')).toEqual(['yaml-syntax 1:8']);
  });

  it('is told of once for each line that has errors in it', () => {
    expect(found('a: @b @c\nb: c\nd: `e\n')).toEqual(['yaml-syntax 1:4', 'yaml-syntax 3:4']);
    expect(found(`[${','.repeat(5000)}`)).toEqual(['yaml-syntax 1:3']);
  });

  it('leaves the process alone: no warnings of the parser reach the user', async () => {
    const warnings: unknown[] = [];
    const listen = (warning: unknown) => warnings.push(warning);
    process.on('warning', listen);
    for (const text of ['? [a]\n: b', '? {a: b}\n: c', 'a: !!js/function x', '? !x y\n: z', '*a : b'])
      parse(text);
    await new Promise((resolve) => setImmediate(resolve));
    process.off('warning', listen);
    expect(warnings).toEqual([]);
  });
});
