import fs from 'node:fs';
import promises from 'node:fs/promises';
import { syncBuiltinESMExports } from 'node:module';
import { afterAll } from 'vitest';

/** What goes wrong, and when. */
export interface FaultPlan {
  /** The system's name for it: ENOSPC. */
  readonly code: string;
  /** Which call fails, counted from 1. */
  readonly at: number;
  /** Whether all later calls fail as well: the disk is gone. */
  readonly isLasting?: boolean;
  /** Functions that fail whenever they are called, and are not counted. */
  readonly never?: readonly string[];
}

let plan: FaultPlan | undefined;
let calls: string[] = [];

/** Does something while file operations fail as planned; says which there were, in order. */
export async function withFault<T>(faults: FaultPlan, act: () => Promise<T>) {
  plan = faults;
  calls = [];
  try {
    return { value: await act(), calls, isReached: calls.length >= faults.at };
  } finally {
    plan = undefined;
  }
}

/** The fault that a call is to meet, if it is to meet one. */
function faultOf(name: string): Error | undefined {
  if (!plan) return undefined;
  const { code, at, isLasting = false, never = [] } = plan;
  const isNever = never.includes(name);
  if (!isNever) calls.push(name);
  const fails = isNever || calls.length === at || (isLasting && calls.length > at);
  return fails ? Object.assign(new Error(`${code}: injected, ${name}`), { code, syscall: name }) : undefined;
}

/** What answers no where the system answers with a fault. */
const quiet = new Set(['existsSync']);
/** What lets go of a file even where it tells a fault (close(2), Linux). */
const lettingGo = new Set(['closeSync', 'close']);

/**
 * Lets the synchronous functions of `node:fs`, and file handles, meet the planned faults until the tests of this file
 * have run: in all modules, which Node gives them by the same names as before.
 */
export function injectFaults(): void {
  const promised = ['open', 'stat', 'readdir', 'readFile'];
  const undo = [
    exchange(fs, (name) => name.endsWith('Sync')),
    exchange(promises, (name) => promised.includes(name)),
  ];
  syncBuiltinESMExports();
  afterAll(() => {
    for (const one of undo) one();
    syncBuiltinESMExports();
  });
}

/** @returns undoes it */
function exchange(module: object, isMeant: (name: string) => boolean): () => void {
  const before = Object.fromEntries(Object.entries(module).filter(([name]) => isMeant(name)));
  for (const [name, operation] of Object.entries(before))
    Object.assign(module, { [name]: faulty(name, operation) });
  return () => Object.assign(module, before);
}

type Operation = (...values: unknown[]) => unknown;

/** What Node's functions call of each other is part of them, and no step of a command. */
let isWithin = false;

function faulty(name: string, operation: Operation): Operation {
  const whole: Operation = (...values) => {
    isWithin = true;
    try {
      return operation(...values);
    } finally {
      isWithin = false;
    }
  };
  return (...values) => {
    if (isWithin) return operation(...values);
    const fault = faultOf(name);
    // Nobody pulls the plug in a test, and waiting for the disk takes long.
    if (!fault) return plan && name === 'fsyncSync' ? undefined : handled(whole(...values));
    if (quiet.has(name)) return false;
    if (lettingGo.has(name)) whole(...values);
    // What is written of a text that does not fit is written.
    if (name === 'writeSync') whole(values[0], (values[1] as Uint8Array).subarray(0, 1));
    if (!name.endsWith('Sync')) return Promise.reject(fault);
    throw fault;
  };
}

/** What `open` of `node:fs/promises` gives: the handle's own calls count too. */
function handled(result: unknown): unknown {
  if (!(result instanceof Promise)) return result;
  return result.then((handle: unknown) => {
    if (typeof handle !== 'object' || handle === null || !('read' in handle && 'close' in handle))
      return handle;
    const own = handle as Record<string, Operation>;
    const proxied = Object.fromEntries(
      ['read', 'stat', 'close'].map((name) => [
        name,
        async (...values: unknown[]) => {
          const fault = faultOf(name);
          if (fault && lettingGo.has(name)) await own[name]?.call(handle, ...values);
          if (fault) throw fault;
          return own[name]?.call(handle, ...values);
        },
      ]),
    );
    return proxied;
  });
}
