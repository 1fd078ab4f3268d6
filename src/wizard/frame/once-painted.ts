/** A page nobody looks at is not painted: then it is enough to have waited this long. */
const UNSEEN_MS = 100;

/** Acts once, after the next frame is on the screen. */
export function oncePainted(act: () => void): void {
  let acted = false;
  const once = () => {
    if (acted) return;
    acted = true;
    clearTimeout(unseen);
    act();
  };
  const unseen = setTimeout(once, UNSEEN_MS);
  // a task queued within a frame runs after that frame
  requestAnimationFrame(() => setTimeout(once, 0));
}
