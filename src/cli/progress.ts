import type { StepName, Watch } from '../core/geometry/index.ts';
import { printable } from '../core/scan/index.ts';

/** Progress on standard error where it is a terminal, and the seconds that each step of the pipeline took. */
export interface Progress extends Watch {
  readonly startedAt: string;
  seconds(): Record<StepName, number>;
  done(): void;
}

export function watchOnTerminal(): Progress {
  const seconds: Record<StepName, number> = { read: 0, face: 0, fit: 0, compare: 0, judge: 0 };
  const terminal = process.stderr.isTTY === true;
  let current: StepName | null = null;
  let since = performance.now();
  const close = (): void => {
    const now = performance.now();
    if (current) seconds[current] += (now - since) / 1000;
    since = now;
  };
  let shown = '';
  return {
    startedAt: new Date().toISOString(),
    step(name) {
      close();
      current = name;
    },
    progress(fraction, doing) {
      const line = `${String(Math.round(fraction * 100)).padStart(3)} %  ${doing}`;
      if (!terminal || line === shown) return;
      shown = line;
      process.stderr.write(`\r\u001b[K${printable(line)}`);
    },
    seconds() {
      close();
      current = null;
      return { ...seconds };
    },
    done() {
      if (terminal && shown) process.stderr.write('\r\u001b[K');
    },
  };
}
