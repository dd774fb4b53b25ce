// A press that counts however slow the finger: browsers give up the click of a
// touch that lasts more than half a second, and a glove is slow.

/** Farther than this, in pixels, a finger has slid and not pressed. */
const SLOP = 16;
/** A click this soon after the finger has left is the same press told twice. */
const SAME_MS = 800;
/** A second press of the same button this soon after one that counted was not meant. */
const BOUNCE_MS = 400;

export interface Press {
  /** The finger has left where it came down. */
  run: () => void;
  /** Called once where the finger stays longer than `HOLD_MS`; `run` is not called then. */
  hold?: () => void;
}

/** How long a finger has to stay for a hold. */
export const HOLD_MS = 650;

/** Attaches a press to a button: touch, mouse, keyboard and screen reader alike. */
export function press(press: () => Press): (node: HTMLButtonElement) => () => void {
  return (node) => {
    let down: { pointer: number; x: number; y: number } | null = null;
    let timer: ReturnType<typeof setTimeout> | undefined;
    let lastUp = -Infinity;
    let lastRun = -Infinity;

    // Timed by the touch itself, so that a slow phone counts as a quick one does.
    const run = (at: number) => {
      if (at - lastRun < BOUNCE_MS) return;
      lastRun = at;
      press().run();
    };

    const end = () => {
      down = null;
      clearTimeout(timer);
    };

    const onDown = (event: PointerEvent) => {
      if (node.disabled || !event.isPrimary || event.button !== 0) return;
      down = { pointer: event.pointerId, x: event.clientX, y: event.clientY };
      const { hold } = press();
      clearTimeout(timer);
      if (hold) {
        timer = setTimeout(() => {
          end();
          // What the browser still makes of this touch is no press.
          lastUp = Infinity;
          hold();
        }, HOLD_MS);
      }
    };

    const onMove = (event: PointerEvent) => {
      if (down && Math.hypot(event.clientX - down.x, event.clientY - down.y) > SLOP) end();
    };

    const onUp = (event: PointerEvent) => {
      if (down?.pointer !== event.pointerId || node.disabled) return;
      end();
      lastUp = event.timeStamp;
      run(event.timeStamp);
    };

    const onClick = (event: MouseEvent) => {
      // Without a pointer (keyboard, screen reader) a click stands alone.
      const told = event.detail > 0 && event.timeStamp - lastUp < SAME_MS;
      lastUp = -Infinity;
      if (!told) run(event.timeStamp);
    };

    // A key held down is one press, not one for each time it repeats.
    const onKey = (event: KeyboardEvent) => {
      if (event.repeat && event.key === 'Enter') event.preventDefault();
    };

    const onMenu = (event: Event) => event.preventDefault();

    node.addEventListener('pointerdown', onDown);
    node.addEventListener('pointermove', onMove);
    node.addEventListener('pointerup', onUp);
    node.addEventListener('pointercancel', end);
    node.addEventListener('pointerleave', end);
    node.addEventListener('click', onClick);
    node.addEventListener('keydown', onKey);
    node.addEventListener('contextmenu', onMenu);
    return () => {
      end();
      node.removeEventListener('pointerdown', onDown);
      node.removeEventListener('pointermove', onMove);
      node.removeEventListener('pointerup', onUp);
      node.removeEventListener('pointercancel', end);
      node.removeEventListener('pointerleave', end);
      node.removeEventListener('click', onClick);
      node.removeEventListener('keydown', onKey);
      node.removeEventListener('contextmenu', onMenu);
    };
  };
}
