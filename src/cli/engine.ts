import { setFlagsFromString } from 'node:v8';

/**
 * The engine of Node 20 compiles well, in threads of its own, whatever has run for a short while: of a command that ends after two
 * seconds that is half of the processor's time. Later engines wait longer of themselves; this one is told to. Others are left as they are:
 * one that lacks a setting would say so on standard error. What was measured: docs/speed.md.
 */
if (process.versions.v8.startsWith('11.3.')) {
  // Eight times its own measure, of bytecode run through.
  setFlagsFromString('--interrupt-budget=540672');
  // For WebAssembly, as the engine of Node 22 has it; 1,800,000 here.
  setFlagsFromString('--wasm-tiering-budget=13000000');
}
