import { useRef } from 'react';
import { createPortal } from 'react-dom';
import type { Section } from '../../core/compare/index.ts';
import { useSize } from '../plate/useSize.ts';
import { Profile } from './Profile.tsx';

/** CSS pixels. */
const height = 210;

/** The section under the plate, as wide as it is. */
export function WideProfile({ section, onClose }: { section: Section; onClose(): void }) {
  const spread = document.querySelector('.spread');
  return spread && createPortal(<Under section={section} onClose={onClose} />, spread);
}

function Under({ section, onClose }: { section: Section; onClose(): void }) {
  const element = useRef<HTMLDivElement>(null);
  const { width } = useSize(element);
  return (
    <div ref={element} className="wide-profile">
      {width > 0 && <Profile section={section} size={{ width, height }} />}
      <button type="button" className="word" onClick={onClose}>
        back into the margin
      </button>
    </div>
  );
}
