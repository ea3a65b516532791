// YAML becomes an articulation map, or all that is wrong with it.

export { type Bases, type BaseText, baseNamed, mostLinks, noBases } from './base.js';
export { mergedMap } from './merged.js';
export { type ReadMapOptions, readMap } from './read-map.js';
export { mapTexts } from './texts.js';
