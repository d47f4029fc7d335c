// The screen kept awake while she is at the frame, where the browser can.

import { useEffect, useState } from "preact/hooks";

export function Awake() {
  const [wanted, setWanted] = useState(false);
  const can = "wakeLock" in navigator;
  useEffect(() => {
    if (!wanted || !can) return;
    let lock: { release(): Promise<void> } | null = null;
    const take = () => {
      if (document.visibilityState !== "visible") return;
      navigator.wakeLock.request("screen").then(
        (own) => (lock = own),
        () => setWanted(false),
      );
    };
    take();
    // A screen that went dark gives the lock back.
    document.addEventListener("visibilitychange", take);
    return () => {
      document.removeEventListener("visibilitychange", take);
      void lock?.release();
    };
  }, [wanted, can]);
  if (!can) return null;
  return (
    <p class="ticks">
      <label>
        <input type="checkbox" checked={wanted} onChange={(event) => setWanted(event.currentTarget.checked)} />
        keep the screen awake
      </label>
    </p>
  );
}
