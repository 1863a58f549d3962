import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './App.tsx';
import { Mishap } from './frame/Mishap.tsx';
import { open } from './open.ts';
import './look/fonts.css';
import './look/base.css';

const root = document.getElementById('root');
if (root)
  createRoot(root).render(
    <StrictMode>
      <Mishap>
        <App />
      </Mishap>
    </StrictMode>,
  );
void open();
