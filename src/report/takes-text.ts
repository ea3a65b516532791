import {
  type AlteredNote,
  type BarShift,
  type ComparedTakes,
  type EventDifference,
  isOtherwise,
  type LoneNote,
  type PartInTakes,
} from '../compare/index.js';
import { escapeText, plural, spellPitch } from '../diagnostics/index.js';
import { barRangesOf, formatBarsUpTo, partInText } from '../midi/index.js';
import { changesText } from './comparison-text.js';

/** What differs between two takes, part by part and bar by bar; unless quiet, it ends with what does not. */
export function takesText(compared: ComparedTakes, isQuiet: boolean): string {
  const blocks = [
    ...(compared.shift ? [shiftText(compared.shift)] : []),
    ...compared.parts.flatMap((part) => {
      const lines = partText(part);
      return lines.length === 0 ? [] : [[`${headingOf(part)}:`, ...lines].join('\n')];
    }),
    ...(compared.events.length === 0
      ? []
      : [['Besides notes:', ...compared.events.map(eventText)].join('\n')]),
  ];
  return [...blocks, ...(isQuiet ? [] : [restText(compared)])].join('\n\n');
}

function headingOf({ name, part: { part } }: PartInTakes): string {
  const track = partInText(part);
  const heading = name === part.trackName ? track : `${escapeText(name)}, ${track}`;
  return heading.charAt(0).toUpperCase() + heading.slice(1);
}

function partText({ part: { map }, only, maps, lone, altered }: PartInTakes): readonly string[] {
  if (only) return [`  only in the ${only} take: ${plural(lone.length, 'note')}`];
  const spell = ({ pitch }: { readonly pitch: number }) => spellPitch(pitch, map.middleC);
  const decided = altered.flatMap((note, index) =>
    note.decided ? [{ number: index + 1, ...note, ...note.decided }] : [],
  );
  return [
    ...(maps ? [`  played by ${escapeText(maps.from)} → ${escapeText(maps.to)}`] : []),
    ...byBar(lone, altered).map(({ bar, said }) => `  ${bar}: ${said(spell)}`),
    ...changesText(decided, map.middleC),
    ...sentText(altered),
  ];
}

interface BarText {
  readonly bar: string;
  readonly said: (spell: (note: LoneNote | AlteredNote) => string) => string;
}

/** What was played otherwise, a line for each bar. */
function byBar(lone: readonly LoneNote[], altered: readonly AlteredNote[]): readonly BarText[] {
  const bars = new Map<number | null, { lone: LoneNote[]; altered: AlteredNote[] }>();
  const at = (bar: number | null) => {
    const found = bars.get(bar) ?? { lone: [], altered: [] };
    bars.set(bar, found);
    return found;
  };
  for (const note of lone) at(note.bar).lone.push(note);
  for (const note of altered) if (isPlayedOtherwise(note)) at(note.bar).altered.push(note);
  return [...bars]
    .sort(([one], [other]) => (one ?? 0) - (other ?? 0))
    .map(([bar, notes]) => ({
      bar: bar === null ? 'anywhere' : `bar ${bar}`,
      said: (spell) => {
        const of = (take: LoneNote['take']) => notes.lone.filter((note) => note.take === take);
        const what = (list: readonly (LoneNote | AlteredNote)[], words: string, more = '') =>
          list.length === 0
            ? []
            : [`${plural(list.length, 'note')} ${words} (${namesOf(list.map(spell))}${more})`];
        return [
          ...what(of('first'), 'removed'),
          ...what(of('second'), 'added'),
          ...what(notes.altered, 'played otherwise', `: ${aspectsOf(notes.altered)}`),
        ].join(', ');
      },
    }));
}

function isPlayedOtherwise({ moved, held, velocity }: AlteredNote): boolean {
  return moved !== undefined || held !== undefined || velocity !== undefined;
}

function aspectsOf(notes: readonly AlteredNote[]): string {
  const aspects = {
    place: notes.some(({ moved }) => moved !== undefined),
    length: notes.some(({ held }) => held),
    velocity: notes.some(({ velocity }) => velocity),
  };
  return Object.entries(aspects)
    .flatMap(([aspect, differs]) => (differs ? [aspect] : []))
    .join(', ');
}

const mostNames = 8;

function namesOf(names: readonly string[]): string {
  const shown = names.slice(0, mostNames).join(' ');
  return names.length > mostNames ? `${shown} …` : shown;
}

/** Notes that are played and decided as before, and go out otherwise. */
function sentText(altered: readonly AlteredNote[]): readonly string[] {
  const sent = altered.filter((note) => note.sent);
  if (sent.length === 0) return [];
  const aspects = [...new Set(sent.flatMap((note) => note.sent ?? []))];
  return [
    `  sent otherwise, though played and decided as before: ${plural(sent.length, 'note')}${barsOf(sent)} (${aspects.join(', ')})`,
  ];
}

function barsOf(notes: readonly AlteredNote[]): string {
  const ranges = barRangesOf(notes.flatMap(({ bar }) => bar ?? []));
  return ranges.length === 0 ? '' : `, ${formatBarsUpTo(6, ranges)}`;
}

function eventText({ track, name, kind, bars, removed, added }: EventDifference): string {
  const where = bars.length === 0 ? '' : ` in ${formatBarsUpTo(6, bars)}`;
  const said = [
    ...(removed > 0 ? [`${removed} removed`] : []),
    ...(added > 0 ? [`${added} added`] : []),
  ].join(', ');
  return `  track ${track}${name === '' ? '' : ` "${escapeText(name)}"`}: ${kind}${where}: ${said}`;
}

function shiftText({ after, bars }: BarShift): string {
  const many = plural(Math.abs(bars), 'bar');
  const where = after === 0 ? 'at the beginning' : `behind bar ${after}`;
  return `${many} ${bars > 0 ? 'put in' : 'taken out'} ${where}; what follows is compared with what followed there before.`;
}

/** What is as it was. */
function restText(compared: ComparedTakes): string {
  const { parts } = compared;
  const same = parts.reduce((sum, one) => sum + one.same, 0);
  const untouched = parts.filter(
    ({ lone, altered, only, maps }) => !only && !maps && lone.length + altered.length === 0,
  );
  if (!isOtherwise(compared))
    return `Nothing changed: ${plural(same, 'note')} in ${plural(parts.length, 'part')}, and all other events.`;
  return `Nothing else changed: ${plural(same, 'note')} are as they were, ${untouched.length} of ${plural(parts.length, 'part')} in every note, and so are all other events.`;
}

/** The same as JSON; channels as they are counted in maps, 1–16. */
export function takesJson({ parts, events, shift }: ComparedTakes): Readonly<Record<string, unknown>> {
  return {
    takes: parts.map(({ name, part: { part }, only, maps, lone, altered, same }) => ({
      name,
      track: part.track,
      channel: part.channel + 1,
      ...(only ? { only } : {}),
      ...(maps ? { maps } : {}),
      same,
      lone,
      altered,
    })),
    events,
    ...(shift ? { shift } : {}),
  };
}
