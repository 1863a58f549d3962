import type { Picture } from '../scene/Painter.tsx';
import type { Lamp } from '../state/document.ts';
import { useView } from '../state/ground.ts';
import { actOnView } from '../state/store.ts';
import { LampSun } from './LampSun.tsx';

const setLamp = (lamp: Lamp): void => actOnView('Lamp moved', { lamp }, 'lamp');

/** The lamp of the plate. */
export function LampRing({ picture, leading }: { picture: Picture; leading: boolean }) {
  const lamp = useView().lamp;
  return <LampSun picture={picture} lamp={lamp} label="Lamp" tabIndex={leading ? 0 : -1} onLamp={setLamp} />;
}
