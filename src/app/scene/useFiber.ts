import { createRoot, type ReconcilerRoot, type RenderProps } from '@react-three/fiber';
import { type ReactNode, type RefObject, useEffect, useState } from 'react';
import { useSize } from '../plate/useSize.ts';

type Root = ReconcilerRoot<HTMLCanvasElement>;
type Options = Omit<RenderProps<HTMLCanvasElement>, 'size'>;

/**
 * Renders `children` on a drawing surface of its own that fills `holder`, as long as that is on the page. The renderer's root is used
 * and not its ready-made element, which enters every class of three by name and so keeps them all in the script (100 kB packed).
 * Throws where no surface can be had.
 */
export function useFiber(holder: RefObject<HTMLElement | null>, options: Options, children: ReactNode): void {
  const size = useSize(holder);
  const root = useRoot(holder);
  const [failed, setFailed] = useState<unknown>(null);
  if (failed) throw failed;
  useEffect(() => {
    if (!root || size.width === 0 || size.height === 0) return;
    let here = true;
    const placed = { width: size.width, height: size.height, top: 0, left: 0 };
    root.configure({ ...options, size: placed }).then(() => here && root.render(children), setFailed);
    return () => {
      here = false;
    };
  });
}

/** The root on a new canvas in `holder`; null before there is one. */
function useRoot(holder: RefObject<HTMLElement | null>): Root | null {
  const [root, setRoot] = useState<Root | null>(null);
  useEffect(() => {
    const canvas = document.createElement('canvas');
    holder.current?.append(canvas);
    const made = createRoot(canvas);
    setRoot(made);
    return () => {
      made.unmount();
      canvas.remove();
    };
  }, [holder]);
  return root;
}
