import type { Changes, DeskState, Preview, Written } from '../../state.js';
import { ask, oneAtATime } from './ask.js';
import { paperIn } from './paper.js';
import { changeItem, made, problemItem } from './told.js';
import { valuesIn } from './values.js';

/** What the page has from the beginning. */
function part<T extends Element = HTMLElement>(selector: string): T {
  const found = document.querySelector<T>(selector);
  if (!found) throw new Error(`the page has no ${selector}`);
  return found;
}

const paper = paperIn(part('.paper'));
const writeButton = part<HTMLButtonElement>('#write');
const dropButton = part<HTMLButtonElement>('#drop');
const values = valuesIn(part('#values'), () => {
  showMoved();
  preview();
});
let state: DeskState | undefined;
/** What was written last, until something is moved again. */
let lastWritten = '';

function notesOf({ list }: Changes): readonly string[] {
  return [...new Set(list.flatMap(({ notes }) => notes))];
}

function inShort({ decided, of, list }: Changes): string {
  if (decided > 0) return `${decided} of ${of} notes get another articulation.`;
  return list.length > 0 ? 'No note gets another articulation.' : 'Nothing of the music is otherwise.';
}

function showState(next: DeskState): void {
  if (next.isBusy && state) {
    part('#state').textContent = 'Something was saved: the sheet is being made anew.';
    return;
  }
  state = next;
  const { title, isBroken, problems, changes, sheet, revision } = next;
  document.title = `${title}, on the desk`;
  part('#title').textContent = title;
  document.body.classList.toggle('broken', isBroken);
  const time = new Date().toLocaleTimeString();
  part('#state').textContent = isBroken
    ? `The files have errors (${time}). ${revision === 0 ? 'There is nothing to show yet.' : 'What is shown is the last that had none.'}`
    : `As the files are since ${time}.`;
  part('#problems').toggleAttribute('hidden', problems.length === 0);
  part('#problems ul').replaceChildren(...problems.map(problemItem));
  part('#changes').toggleAttribute('hidden', !changes);
  if (changes) part('#changes p').textContent = inShort(changes);
  part('#changes ul').replaceChildren(...(changes?.list ?? []).map((one) => changeItem(one, paper.goToBar)));
  paper.mark(changes ? notesOf(changes) : [], 'become');
  paper.show(sheet);
  values.show(next);
  showMoved();
  if (!isBroken) preview();
}

function showMoved(): void {
  const moved = [...values.moved.values()];
  writeButton.disabled = moved.length === 0;
  dropButton.disabled = moved.length === 0;
  part('#moved .moves').replaceChildren(
    ...moved.map(({ movable, to }) => {
      const unit = 'choices' in movable.reach ? '' : movable.reach.unit;
      const back = made('button', '', 'Put back');
      back.type = 'button';
      back.setAttribute('aria-label', `Put back ${movable.words}`);
      back.addEventListener('click', () => {
        values.putBack([movable.id]);
        // The button is gone with what it was for.
        values.focus(movable.id);
      });
      const said = `${movable.words} ${movable.value}${unit} → ${to}${unit} (${movable.file}, ${movable.where}) `;
      return made('li', '', said, back);
    }),
  );
}

function showPreview(changes: Changes | undefined, said: string, refused: readonly string[] = []): void {
  part('#moved .effect').textContent = said;
  part('#moved .refused').replaceChildren(...refused.map((one) => made('li', '', one)));
  part('#moved .effects').replaceChildren(
    ...(changes?.list ?? []).map((one) => changeItem(one, paper.goToBar)),
  );
  paper.mark(changes ? notesOf(changes) : [], 'perhaps');
}

function asked() {
  return {
    revision: state?.revision ?? 0,
    moved: [...values.moved].map(([id, { to }]) => ({ id, value: to })),
  };
}

const preview = oneAtATime(async () => {
  if (values.moved.size === 0) return showPreview(undefined, lastWritten || 'Nothing is moved.');
  lastWritten = '';
  const answer = await ask<Preview>('moved', asked());
  if (values.moved.size === 0) return showPreview(undefined, 'Nothing is moved.');
  if ('refused' in answer && typeof answer.refused === 'string')
    return showPreview(undefined, answer.refused);
  const { changes, problems, refused } = answer as Preview;
  const names = new Map([...values.moved].map(([id, { movable }]) => [id, movable.words]));
  showPreview(changes, problems.length > 0 ? 'It cannot be so:' : inShort(changes), [
    ...problems.map(({ text }) => text),
    ...refused.map(({ id, why }) => `${names.get(id) ?? id}: ${why}`),
  ]);
});

writeButton.addEventListener('click', async () => {
  const written = asked();
  const answer = await ask<Written>('write', written);
  if ('refused' in answer) return showPreview(undefined, `Nothing was written: ${answer.refused}`);
  lastWritten = `Written: ${answer.files.join(', ')}.`;
  values.putBack(written.moved.map(({ id }) => id));
  part('#moved').focus();
});
dropButton.addEventListener('click', () => {
  values.putBack(values.moved.keys());
  part('#moved').focus();
});

const source = new EventSource('events');
source.addEventListener('message', ({ data }) => showState(JSON.parse(data as string) as DeskState));
source.addEventListener('error', () => {
  document.body.classList.add('broken');
  part('#state').textContent = 'The desk does not answer: it may have been ended. The page waits for it.';
});
