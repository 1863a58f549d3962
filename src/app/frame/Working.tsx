import { useDocument, useStore } from '../state/store.ts';
import { Progress } from './Progress.tsx';

/** What is being worked on, how far it is, and a way to stop it. */
export function Working() {
  const faces = useStore((state) => state.faces);
  const comparison = useStore((state) => state.comparison);
  const scans = useDocument((document) => document.scans);
  const face = scans.find((scan) => faces[scan.id]?.at === 'working');
  const state = face ? faces[face.id] : comparison;
  if (state?.at !== 'working') return null;
  const what = face ? face.title : 'The pair';
  return <Progress what={what} doing={state.doing} fraction={state.fraction} />;
}
