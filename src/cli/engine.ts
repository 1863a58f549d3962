import { setFlagsFromString } from 'node:v8';

/** The engine of Node 20. */
const early = process.versions.v8.startsWith('11.3.');

/** Those of Node 20, 22 and 24 know this setting; one that lacks a setting would say so on standard error. */
const tiers = /^(11\.3|12\.4|13\.6)\./.test(process.versions.v8);

/** WebAssembly is compiled well when so much of it has run; of Node 22 and 24 the engine's own measure, 1,800,000 in Node 20. */
const ordinaryBudget = 13_000_000;

/**
 * The engine of Node 20 compiles well, in threads of its own, whatever has run for a short while: of a command that ends after two
 * seconds that is half of the processor's time. Later engines wait longer of themselves; this one is told to. What was measured: docs/tried/speed.md.
 */
export function waitBeforeCompiling(): void {
  if (!early) return;
  // Eight times its own measure, of bytecode run through.
  setFlagsFromString('--interrupt-budget=540672');
  setFlagsFromString(`--wasm-tiering-budget=${ordinaryBudget}`);
  // The first turn of every loop is compiled apart otherwise: more to compile, no faster here.
  setFlagsFromString('--no-turbo-loop-peeling');
  // All memory that arrays take counts as garbage to come, and each time all that lives is gone through for it: five times as much may come.
  setFlagsFromString('--heap-growing-percent=400');
  // What little outlives a collection of what is new is copied sooner by the thread that waits for it than by helpers that must be woken.
  setFlagsFromString('--no-parallel-scavenge');
}

/** Makes a large module that draws a few pictures: compiling it well takes longer than they do. */
export async function seldomCompiled<Made>(make: () => Promise<Made>): Promise<Made> {
  if (!tiers) return make();
  setFlagsFromString('--wasm-tiering-budget=1500000000');
  try {
    return await make();
  } finally {
    setFlagsFromString(`--wasm-tiering-budget=${ordinaryBudget}`);
  }
}
