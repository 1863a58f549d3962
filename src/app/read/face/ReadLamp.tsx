import type { SyntheticEvent } from 'react';
import { LampSun } from '../../plate/LampSun.tsx';
import type { Picture } from '../../scene/Painter.tsx';
import type { ReadLamp as Lamp } from '../../state/readDocument.ts';
import { actOnRead } from '../state/acts.ts';

/** The lamp of the look. While it is moved nothing under it is pointed at. */
export function ReadLamp({ picture, lamp }: { picture: Picture; lamp: Lamp }) {
  const setLamp = (moved: Lamp, event: SyntheticEvent): void => {
    event.stopPropagation();
    actOnRead('Lamp moved', { lamp: moved }, 'read lamp');
  };
  return <LampSun picture={picture} lamp={lamp} label="Lamp of the look" tabIndex={0} onLamp={setLamp} />;
}
