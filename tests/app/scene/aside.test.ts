import type * as THREE from 'three';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { coarseRatio, paintedAside, type Send } from '../../../src/app/scene/aside.ts';

/** A card that has done nothing of what it was given until it is told so, and what was asked of it, in order. */
function card() {
  const calls: string[] = [];
  const context = {
    fenceSync: () => ({}),
    flush: () => undefined,
    isContextLost: () => false,
    getSyncParameter: () => (made.done ? made.SIGNALED : 0),
    deleteSync: () => undefined,
    getParameter: () => null,
    blitFramebuffer: () => calls.push('shown'),
  };
  const made = { done: false, SIGNALED: 1, calls, size: [300, 200] };
  const gl = {
    getContext: () => Object.assign(context, { SIGNALED: made.SIGNALED }),
    getPixelRatio: () => 1,
    getDrawingBufferSize: (into: THREE.Vector2) => into.set(made.size[0], made.size[1]),
    setRenderTarget: () => undefined,
    setScissorTest: () => undefined,
    state: { bindFramebuffer: () => undefined },
  } as unknown as THREE.WebGLRenderer;
  return { gl, made, calls };
}

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal('requestAnimationFrame', (then: () => void) => setTimeout(then, 1));
});

// Other tests of the same worker wait by the real clock.
afterEach(() => {
  vi.useRealTimers();
});

describe('a plate painted aside', () => {
  it('sends faces to the card one after another, and paints when it has them all', () => {
    const { gl, made, calls } = card();
    const faces = ['one', 'two'];
    const send: Send = () => {
      const face = faces.shift();
      if (!face) return null;
      calls.push(`sent ${face}`);
      return () => calls.push(`has ${face}`);
    };
    const aside = paintedAside(gl, (_, ratio) => calls.push(`painted at ${ratio}`), send);
    aside.ask(1);
    // The surface is new: something coarse is laid on it at once.
    expect(calls.splice(0)).toEqual([`painted at ${coarseRatio}`, 'shown']);
    vi.advanceTimersByTime(100);
    expect(calls).toEqual(['sent one']);
    made.done = true;
    vi.advanceTimersByTime(100);
    expect(calls).toEqual(['sent one', 'has one', 'sent two', 'has two', 'painted at 1', 'shown']);
  });

  it('shows a picture when the card has painted it, and then only the last of those asked for meanwhile', () => {
    const { gl, made, calls } = card();
    const aside = paintedAside(
      gl,
      (_, ratio) => calls.push(`painted at ${ratio}`),
      () => null,
    );
    aside.ask(1);
    vi.advanceTimersByTime(100);
    expect(calls.splice(0)).toEqual([`painted at ${coarseRatio}`, 'shown', 'painted at 1']);
    aside.ask(2);
    aside.ask(3);
    expect(calls).toEqual([]);
    made.done = true;
    vi.advanceTimersByTime(100);
    expect(calls).toEqual(['shown', 'painted at 3', 'shown']);
  });
});
