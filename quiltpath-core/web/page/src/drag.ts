// What can be dragged: a handle that follows pointer and arrow keys, one step for a whole drag.

export interface Drag {
  /** What is dragged, for those who listen. */
  label: string;
  /** Moved so far since it was taken, in pixels of the screen. */
  onMove(right: number, down: number, merge: boolean): void;
  /** One step by an arrow key: right and down in steps. */
  onStep(right: number, down: number, large: boolean): void;
  /** Let go by Escape: as it was. */
  onDrop(): void;
  /** Let go, wherever. */
  onEnd?(): void;
}

/** The attributes of a handle. */
export function handle(drag: Drag) {
  let from: { x: number; y: number; moved: boolean; id: number } | null = null;
  return {
    tabIndex: 0,
    role: "button" as const,
    "aria-label": drag.label,
    onPointerDown(event: PointerEvent) {
      const target = event.currentTarget as HTMLElement;
      target.setPointerCapture(event.pointerId);
      from = { x: event.clientX, y: event.clientY, moved: false, id: event.pointerId };
      event.preventDefault();
      target.focus();
      const move = (next: PointerEvent) => {
        if (!from) return;
        drag.onMove(next.clientX - from.x, next.clientY - from.y, from.moved);
        from.moved = true;
      };
      const end = () => {
        from = null;
        drag.onEnd?.();
        target.removeEventListener("pointermove", move);
        target.removeEventListener("pointerup", end);
        target.removeEventListener("pointercancel", end);
        target.removeEventListener("keydown", escape);
      };
      const escape = (key: KeyboardEvent) => {
        if (key.key !== "Escape" || !from) return;
        if (from.moved) drag.onDrop();
        target.releasePointerCapture(from.id);
        end();
      };
      target.addEventListener("pointermove", move);
      target.addEventListener("pointerup", end);
      target.addEventListener("pointercancel", end);
      target.addEventListener("keydown", escape);
    },
    onKeyDown(event: KeyboardEvent) {
      const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
      if (!way) return;
      event.preventDefault();
      drag.onStep(way[0]!, way[1]!, event.shiftKey);
    },
  };
}
