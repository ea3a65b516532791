// Sound: sound files and what is measured in them, the measuring of a library, and the compiled music as it sounds.
export * from './hear/index.js';
export * from './measure/index.js';
export * from './signal/index.js';
