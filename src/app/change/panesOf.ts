import type { Pane, Role, Size } from '../plate/panes.ts';
import type { ChangeLook } from './state/changeStore.ts';

/** Earlier and later; what is not seen has a pane without width. */
export function panesOf(look: ChangeLook, onTop: 'earlier' | 'later', { width, height }: Size): Pane[] {
  const whole = (id: string, role: Role, seen: boolean, differences = false): Pane => ({
    ...{ id, role, x: 0, y: 0, width, height, from: 0, to: seen ? width : 0, differences, within: null },
  });
  const half = width / 2;
  switch (look) {
    case 'pair':
      return [
        { ...whole('a', 'reference', true), width: half, to: half },
        { ...whole('b', 'subject', true), x: half, width: half, from: half },
      ];
    case 'turn':
      return [whole('a', 'reference', onTop === 'earlier'), whole('b', 'subject', onTop === 'later')];
    case 'map':
      return [whole('d', 'reference', true, true), whole('b', 'subject', false)];
  }
}
