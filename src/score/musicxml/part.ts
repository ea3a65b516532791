import { child, childrenOf, numberAt, numberOf, type XmlElement } from '../xml/element.js';
import { placeOf, readAttributes } from './attributes.js';
import { dynamicOf, readDirection } from './direction.js';
import { openGlides } from './glides.js';
import { readNote } from './note.js';
import { slurNotes } from './slurs.js';
import { readLoneSound } from './sound.js';
import { type MeasureFacts, numbersIn, type PartState, ticksOf } from './state.js';

/** Reads the bars of a part into its state. */
export function readPart(measures: readonly XmlElement[], state: PartState): void {
  measures.forEach((element, index) => {
    state.measure = index;
    state.cursor = 0;
    state.onset = 0;
    state.furthest = 0;
    state.alters.clear();
    const facts: MeasureFacts = {
      number: element.attributes.get('number') ?? String(index + 1),
      content: 0,
      metre: state.metre,
      repeatFrom: false,
      repeatTo: null,
      endingStart: null,
      endingStops: false,
      jumps: [],
    };
    state.measures.push(facts);
    for (const one of element.children) readElement(one, facts, state);
    facts.content = ticksOf(state, state.furthest);
  });
  slurNotes(state);
  openGlides(state);
}

function readElement(element: XmlElement, facts: MeasureFacts, state: PartState): void {
  switch (element.name) {
    case 'attributes':
      readAttributes(element, state);
      if (state.cursor === 0) facts.metre = state.metre;
      return;
    case 'note':
      if (!state.hasDivisions) missingDivisions(element, state);
      readNote(element, state);
      noteDynamics(element, state);
      return;
    case 'backup':
    case 'forward':
      move(element, state);
      return;
    case 'direction':
      readDirection(element, state);
      return;
    case 'sound':
      readLoneSound(element, state, placeOf(element, state));
      return;
    case 'barline':
      readBarline(element, facts);
      return;
  }
}

function missingDivisions(element: XmlElement, state: PartState): void {
  state.hasDivisions = true;
  if (child(element, 'grace')) return;
  state.found.warning(
    'score-missing',
    element,
    'a note stands before the part says its divisions',
    'one division a quarter is taken',
  );
}

/** Dynamics may stand on a note as well. */
function noteDynamics(element: XmlElement, state: PartState): void {
  const offset = ticksOf(state, state.onset);
  for (const notations of childrenOf(element, 'notations'))
    for (const one of childrenOf(notations, 'dynamics').flatMap(({ children }) => children))
      for (const sign of dynamicOf(one)) state.signs.push({ ...sign, measure: state.measure, offset });
}

function move(element: XmlElement, state: PartState): void {
  const duration = numberAt(element, 'duration');
  if (duration === undefined || duration < 0) {
    state.found.error(
      'score-value',
      element,
      `${element.name} without a duration`,
      'a number above 0, in divisions',
    );
    return;
  }
  const quarters = (element.name === 'backup' ? -duration : duration) / state.divisions;
  state.cursor += quarters;
  // rounding of divisions that do not fit is no mistake
  if (state.cursor < -1e-6)
    state.found.warning(
      'score-value',
      element,
      'a backup leads before the beginning of its bar',
      'it goes to the beginning',
    );
  state.cursor = Math.max(0, state.cursor);
  state.onset = state.cursor;
  state.furthest = Math.max(state.furthest, state.cursor);
}

function readBarline(element: XmlElement, facts: MeasureFacts): void {
  const repeat = child(element, 'repeat');
  if (repeat?.attributes.get('direction') === 'forward') facts.repeatFrom = true;
  if (repeat?.attributes.get('direction') === 'backward') facts.repeatTo = repeatOf(repeat);
  const ending = child(element, 'ending');
  if (ending?.attributes.get('type') === 'start') {
    const numbers = numbersIn(ending.attributes.get('number') ?? '');
    facts.endingStart = numbers.length > 0 ? numbers : [1];
  } else if (ending) facts.endingStops = true;
  for (const kind of ['segno', 'coda'] as const) {
    const name = element.attributes.get(kind) ?? (child(element, kind) ? '' : undefined);
    const isTold = facts.jumps.some((jump) => jump.kind === kind);
    if (name !== undefined && !isTold) facts.jumps.push({ kind, name });
  }
}

function repeatOf({ attributes }: XmlElement): NonNullable<MeasureFacts['repeatTo']> {
  const times = numberOf(attributes.get('times'));
  const isCount = times !== undefined && Number.isInteger(times) && times >= 1;
  return { times: isCount ? times : null, afterJump: attributes.get('after-jump') === 'yes' };
}
