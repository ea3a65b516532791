import { describe, expect, it } from 'vitest';
import { edited, openYaml, type YamlPath } from '../../src/yaml/index.js';

const put = (text: string, path: YamlPath, spelled: string, value: unknown = spelled) => {
  const result = edited(openYaml(text), { path, text: spelled, value });
  return 'document' in result ? result.text : result.refused;
};

describe('a value put into a text', () => {
  it('stands in a list, and leaves every other character', () => {
    const text =
      '# top\nparts: # all\n  - {name: A,  map: a.yaml} # first\n  - name: B\n    map:   "b.yaml"   # second\n';
    expect(put(text, ['parts', 0, 'map'], 'c.yaml')).toBe(text.replace('a.yaml', 'c.yaml'));
    expect(put(text, ['parts', 1, 'map'], '"c.yaml"', 'c.yaml')).toBe(text.replace('b.yaml', 'c.yaml'));
    expect(put(text.replaceAll('\n', '\r\n'), ['parts', 1, 'map'], 'c.yaml')).toBe(
      text.replaceAll('\n', '\r\n').replace('"b.yaml"', 'c.yaml'),
    );
  });

  it('is not put where there is nothing, nor in the place of an item', () => {
    expect(put('parts: [{map: a}]\n', ['parts', 3, 'map'], 'c')).toBe('not-there');
    expect(put('parts: [a, b]\n', ['parts', 1], 'c')).toBe('shape');
    expect(put('parts: [\n', ['parts', 0, 'map'], 'c')).toBe('shape');
  });

  it('is not put where something else would change', () => {
    const shared = 'parts:\n  - map: &m a.yaml\n  - map: *m\n';
    expect(put(shared, ['parts', 0, 'map'], 'c.yaml')).toBe('spoils');
    expect(put(shared, ['parts', 1, 'map'], 'c.yaml')).toBe(shared.replace('*m', 'c.yaml'));
    // The text is not what the value is meant to be.
    expect(put('parts: [{map: a}]\n', ['parts', 0, 'map'], 'b, c: d', 'b, c: d')).toBe('spoils');
  });

  it('is put into a text with more aliases than a reader would unfold by itself', () => {
    const many = `first: &a x\nall: [${Array.from({ length: 200 }, () => '*a').join(', ')}]\nmap: a\n`;
    expect(put(many, ['map'], 'b')).toBe(many.replace('map: a', 'map: b'));
  });
});
