import * as THREE from 'three';

/** Paints the plate into `target`, or onto the surface itself where that is null, at `ratio` pixels per CSS pixel. */
export type Paint = (target: THREE.WebGLRenderTarget | null, ratio: number) => void;

/** Sends something that will be painted to the card and gives what to do when the card has it; null where nothing is left to send. */
export type Send = () => (() => void) | null;

/** Pixels a CSS pixel of a picture that is soon followed by another: a sixth of the work. */
export const coarseRatio = 0.4;

/**
 * Without a graphics card a picture takes a tenth of a second and more, and whatever the page shows next, words and buttons too, waits
 * for a surface that is still being painted. So the picture is painted aside and laid on the surface when it is done, enlarged where it
 * was painted coarser; what is asked for meanwhile is painted after it. A surface that has just been resized is blank and cannot wait: it
 * gets a coarse picture first. A new face's pictures take the card as long as a painting, so they are sent before, one face after another.
 */
export function paintedAside(gl: THREE.WebGLRenderer, paint: Paint, send: Send) {
  const context = gl.getContext() as WebGL2RenderingContext;
  const target = new THREE.WebGLRenderTarget(1, 1);
  const surface = new THREE.Vector2(0, 0);
  const now = new THREE.Vector2();
  let busy = false;
  let wanted: number | null = null;
  let ended = false;

  function draw(ratio: number): void {
    const share = ratio / gl.getPixelRatio();
    target.setSize(Math.max(1, Math.round(surface.x * share)), Math.max(1, Math.round(surface.y * share)));
    paint(target, ratio);
    gl.setRenderTarget(null);
  }

  function begin(ratio: number): void {
    busy = true;
    const has = send();
    if (has) {
      afterwards(() => {
        has();
        begin(wanted ?? ratio);
      });
      return;
    }
    wanted = null;
    draw(ratio);
    afterwards(() => {
      show();
      goOn();
    });
  }

  /** When the card has done all that it was given. */
  function afterwards(then: () => void): void {
    const done = context.fenceSync(context.SYNC_GPU_COMMANDS_COMPLETE, 0);
    context.flush();
    wait(done, then);
  }

  function wait(done: WebGLSync | null, then: () => void): void {
    if (ended || context.isContextLost()) {
      busy = false;
      return;
    }
    if (done && context.getSyncParameter(done, context.SYNC_STATUS) !== context.SIGNALED) {
      setTimeout(() => wait(done, then), 4);
      return;
    }
    context.deleteSync(done);
    then();
  }

  /** The next begins when the browser has this one: it would wait for both. */
  function goOn(): void {
    busy = true;
    requestAnimationFrame(() =>
      setTimeout(() => {
        busy = false;
        if (wanted !== null && !ended && !context.isContextLost()) begin(wanted);
      }),
    );
  }

  function show(): void {
    gl.setScissorTest(false);
    gl.setRenderTarget(target);
    gl.state.bindFramebuffer(context.READ_FRAMEBUFFER, context.getParameter(context.FRAMEBUFFER_BINDING));
    gl.state.bindFramebuffer(context.DRAW_FRAMEBUFFER, null);
    const from = [0, 0, target.width, target.height] as const;
    context.blitFramebuffer(...from, 0, 0, surface.x, surface.y, context.COLOR_BUFFER_BIT, context.LINEAR);
    gl.state.bindFramebuffer(context.READ_FRAMEBUFFER, null);
    gl.setRenderTarget(null);
  }

  return {
    ask(ratio: number): void {
      gl.getDrawingBufferSize(now);
      if (!now.equals(surface)) {
        surface.copy(now);
        draw(coarseRatio);
        show();
        wanted = ratio;
        if (!busy) goOn();
      } else if (busy) wanted = ratio;
      else begin(ratio);
    },
    end(): void {
      ended = true;
      target.dispose();
    },
  };
}
