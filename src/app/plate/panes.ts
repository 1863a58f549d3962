import type { Look, PlateView, Step } from '../state/document.ts';

export type Role = 'reference' | 'subject';

/** One picture on the plate, in CSS pixels from the plate's upper left corner. */
export interface Pane {
  readonly id: string;
  readonly role: Role;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** From and to in x, pixels of the plate. */
  readonly from: number;
  readonly to: number;
  readonly differences: boolean;
  /** Only what lies within the seal's outline, made smaller by this share, is painted; null: all of it. */
  readonly within: number | null;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** What may be shown: a face alone until there is a pair. */
export interface Shown {
  readonly step: Step;
  readonly faceRole: Role;
  readonly hasReference: boolean;
  readonly hasSubject: boolean;
  readonly hasDifference: boolean;
}

/** The pictures on the plate for a view: two side by side, or several in one place. */
export function panesFor(view: PlateView, shown: Shown, size: Size): Pane[] {
  const whole = (id: string, role: Role, differences = false): Pane => ({
    ...{ id, role, x: 0, y: 0, ...size, from: 0, to: size.width, differences, within: null },
  });
  if (shown.step === 'face') return [whole('face', shown.faceRole)];
  if (!(shown.hasReference && shown.hasSubject))
    return shown.hasReference ? [whole('a', 'reference')] : shown.hasSubject ? [whole('b', 'subject')] : [];
  return panesOfLook(lookOf(view.look, shown), view, size, whole);
}

const lookOf = (look: Look, shown: Shown): Look => (look === 'difference' && !shown.hasDifference ? 'pair' : look);

function panesOfLook(
  look: Look,
  view: PlateView,
  size: Size,
  whole: (id: string, role: Role, differences?: boolean) => Pane,
): Pane[] {
  switch (look) {
    case 'pair': {
      const half = size.width / 2;
      return [
        { ...whole('a', 'reference'), width: half, to: half },
        { ...whole('b', 'subject'), x: half, width: half, from: half },
      ];
    }
    case 'over':
      return [whole('b', 'subject'), { ...whole('a', 'reference'), within: view.divider }];
    case 'turn':
      return [whole(view.onTop === 'reference' ? 'a' : 'b', view.onTop)];
    case 'difference':
      return [whole('d', 'reference', true)];
  }
}

export const paneAt = (panes: readonly Pane[], x: number, y: number): Pane | undefined =>
  panes.find((pane) => x >= pane.from && x < pane.to && y >= pane.y && y < pane.y + pane.height);
