/** What the desk answers; `refused` where it does not do what it is asked for. */
export type Answer<T> = T | { readonly refused: string };

/** Asks the desk something. */
export async function ask<T>(what: 'moved' | 'write', body: unknown): Promise<Answer<T>> {
  try {
    const answer = await fetch(what, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    if ((answer.headers.get('content-type') ?? '').startsWith('application/json'))
      return (await answer.json()) as Answer<T>;
    return { refused: await answer.text() };
  } catch {
    return { refused: 'the desk does not answer: it may have been ended' };
  }
}

/** Lets something be done once at a time; what is wished for meanwhile is done once more afterwards. */
export function oneAtATime(act: () => Promise<void>): () => void {
  let isRunning = false;
  let isWanted = false;
  const run = async () => {
    if (isRunning) {
      isWanted = true;
      return;
    }
    isRunning = true;
    do {
      isWanted = false;
      await act();
    } while (isWanted);
    isRunning = false;
  };
  return () => void run();
}
