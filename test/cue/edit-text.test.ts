import { describe, expect, it } from 'vitest';
import { cueTextWithMap, type MapOwner } from '../../src/cue/index.js';

const cue = `# A cue with comments.
format: keyslip-cue/1
source: a.mid
output: b.mid
parts:
  - {name: One, track: 1, map: old.yaml, level: -3} # loud
  - name: Two
    track: 2
    map: 'old.yaml' # of the other room
    layers:
      - {name: bite, map: "old.yaml"}
      - {name: own}
`;
const moved = (owner: MapOwner, path: string, text = cue) => {
  const result = cueTextWithMap(text, owner, path);
  return 'text' in result ? result.text : result.refused;
};

describe('the map of a part in a cue', () => {
  it('is written with the quotes that were there, and nothing else changes', () => {
    expect(moved({ part: 0 }, 'maps/new.yaml')).toBe(cue.replace('map: old.yaml', 'map: maps/new.yaml'));
    expect(moved({ part: 1 }, 'maps/new.yaml')).toBe(cue.replace("'old.yaml'", "'maps/new.yaml'"));
    expect(moved({ part: 1, layer: 0 }, 'new.yaml')).toBe(cue.replace('"old.yaml"', '"new.yaml"'));
  });

  it('is put in quotes where YAML would take the path for something else', () => {
    expect(moved({ part: 0 }, 'a, b #1.yaml')).toBe(cue.replace('map: old.yaml', 'map: "a, b #1.yaml"'));
    expect(moved({ part: 1 }, "it's.yaml")).toBe(cue.replace("'old.yaml'", "'it''s.yaml'"));
    // A number, by YAML 1.2, 10.3.2.
    expect(moved({ part: 0 }, '1.5')).toBe(cue.replace('map: old.yaml', 'map: "1.5"'));
  });

  it('is added to a layer that had its library from the part', () => {
    expect(moved({ part: 1, layer: 1 }, 'new.yaml')).toBe(
      cue.replace('{name: own}', '{name: own, map: new.yaml}'),
    );
  });

  it('is left where an anchor would take others with it', () => {
    const shared = cue.replace('map: old.yaml', 'map: &m old.yaml').replace("'old.yaml'", '*m');
    expect(moved({ part: 0 }, 'new.yaml', shared)).toBe('spoils');
    expect(moved({ part: 1 }, 'new.yaml', shared)).toBe(shared.replace('*m', 'new.yaml'));
  });
});
