import { isMap, isScalar, parseDocument } from 'yaml';

/**
 * A sketch as a map that can be read: one without rules is given one, behind everything else, so that all that is found
 * wrong in it keeps its place.
 */
export function withSomeRule(sketch: string): string {
  const document = parseDocument(sketch);
  const { contents } = document;
  if (document.errors.length > 0 || !isMap(contents) || contents.flow || contents.has('rules')) return sketch;
  const articulations = contents.get('articulations');
  const first = isMap(articulations) ? articulations.items[0]?.key : undefined;
  // Without articulations of its own it rests on a map that has rules too, or is told that they are missing.
  if (!isScalar(first) || typeof first.value !== 'string') return sketch;
  const gap = sketch.endsWith('\n') ? '' : '\n';
  return `${sketch}${gap}rules: [{use: ${JSON.stringify(first.value)}}]\n`;
}
