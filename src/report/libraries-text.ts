import type { Becomes, ComparedArticulations, Otherwise, Times } from '../compare/index.js';
import { spellPitch } from '../diagnostics/index.js';
import type { ArticulationMap, Likeness } from '../map/index.js';

const words: Readonly<Record<Likeness, string>> = {
  same: 'same meaning',
  variation: 'another variation',
  plain: 'plain sound of its class',
  name: 'same name; what it means is not known',
  lost: 'means something else',
};

/** How near two sounds come to each other, in a few words. */
export function formatLikeness(likeness: Likeness): string {
  return words[likeness];
}

/** What each articulation becomes in a map of another library, a line each. */
export function becomesText(becomes: readonly Becomes[], a: ArticulationMap): readonly string[] {
  return becomes.map(({ from, to, likeness }) =>
    to === null
      ? `  ${from} is lost: ${lostText(from, a)}`
      : `  ${from} → ${to} (${formatLikeness(likeness)})`,
  );
}

/** Why nothing stands for an articulation. */
export function lostText(name: string, { articulations }: ArticulationMap): string {
  const means = articulations.get(name)?.means ?? [];
  return means.length === 0
    ? 'its map does not say what it means'
    : `nothing there means ${means.join(' or ')}`;
}

/** What range, dynamics and delays differ in, a line each. */
export function differencesText(
  { range, controller, levels, loudness, lead, delays }: ComparedArticulations,
  a: ArticulationMap,
  b: ArticulationMap,
): readonly string[] {
  const from = (name: string, to: string) => (name === to ? name : `${name} → ${to}`);
  return [
    ...(range ? [`Range: ${rangeText(range.from, a)} → ${rangeText(range.to, b)}`] : []),
    ...(controller ? [`Dynamics on controller: ${valueText(controller)}`] : []),
    ...(levels
      ? [`Levels: ${levels.map(({ mark, ...value }) => `${mark} ${valueText(value)}`).join(', ')}`]
      : []),
    ...list('Loudness by:', loudness, ({ loudness: by, velocity, ...names }) => {
      const into = velocity && `velocities ${velocityText(velocity.from)} → ${velocityText(velocity.to)}`;
      return `${from(names.from, names.to)}: ${[by && valueText(by), into].filter((text) => text).join(', ')}`;
    }),
    ...(lead ? [`Switches are sent ahead by: ${valueText(lead)}`] : []),
    ...list('Heard later or earlier, or joined otherwise:', delays, ({ speaksAfter, joins, ...names }) => {
      const said = [
        ...(speaksAfter ? [`speaks after ${timesText(speaksAfter, '0ms')}`] : []),
        ...(joins ? [`overlap ${timesText(joins, 'none')}`] : []),
      ];
      return `${from(names.from, names.to)}: ${said.join('; ')}`;
    }),
  ];
}

function list<T>(
  heading: string,
  items: readonly T[] | undefined,
  line: (item: T) => string,
): readonly string[] {
  return items ? [heading, ...items.map((item) => `  ${line(item)}`)] : [];
}

function valueText({ from, to }: Otherwise<string | number | null>): string {
  return `${from ?? 'none'} → ${to ?? 'none'}`;
}

function velocityText(range: readonly [number, number] | null): string {
  return range ? range.join(' to ') : 'as played';
}

function timesText({ from, to }: Otherwise<Times>, none: string): string {
  const said = (times: Times) => times.join(', ') || none;
  const isSame = said(from) === said(to);
  return isSame ? `${said(from)}, for other notes` : `${said(from)} → ${said(to)}`;
}

/** Both as the manual spells them and as MIDI notes: two libraries may spell one key differently. */
function rangeText({ low, high }: ArticulationMap['range'], { middleC }: ArticulationMap): string {
  return `${spellPitch(low, middleC)} to ${spellPitch(high, middleC)} (${low} to ${high})`;
}
