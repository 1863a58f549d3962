import type { Picture } from '../scene/Painter.tsx';
import type { Lamp } from '../state/document.ts';
import { lampInHand } from '../state/door.ts';
import { useView } from '../state/ground.ts';
import { actOnView, useStore } from '../state/store.ts';
import { LampSun } from './LampSun.tsx';

const setLamp = (lamp: Lamp): void => actOnView('Lamp moved', { lamp }, 'lamp');

/** The lamp of the plate. */
export function LampRing({ picture, leading }: { picture: Picture; leading: boolean }) {
  const lamp = useView().lamp;
  const inHand = useStore(lampInHand);
  return <LampSun {...{ picture, lamp, inHand, onLamp: setLamp }} label="Lamp" tabIndex={leading ? 0 : -1} />;
}
