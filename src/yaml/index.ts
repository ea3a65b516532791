// YAML text as a tree with positions, and what a schema finds wrong with it.

export { type EditedYaml, edited, type NotEdited, openYaml, type ValueEdit } from './edit.js';
export { type Fragment, oneOrList, refersTo } from './fragment.js';
export { parseYaml, type ReadYaml, wholeFile } from './parse.js';
export { placeOf, placeOfKey } from './places.js';
export { judge, type SchemaTexts } from './schema.js';
export type { YamlPath } from './splice.js';
export type { Tree } from './tree.js';
