import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { Mishap } from '../frame/Mishap.tsx';
import { Rooms } from './Rooms.tsx';
import { keepUpToDate } from './state/rooms.ts';
import '../look/fonts.css';
import '../look/base.css';
import '../frame/frame.css';
import '../bringIn/bringIn.css';
import '../plate/plate.css';
import './collection.css';

const root = document.getElementById('root');
if (root)
  createRoot(root).render(
    <StrictMode>
      <Mishap>
        <Rooms />
      </Mishap>
    </StrictMode>,
  );
keepUpToDate();
