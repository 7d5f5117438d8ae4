import { useEffect, useRef } from "preact/hooks";
import { askToOpen, lock, openTouch, touchedElsewhere } from "../../hands/lock";

/** Lies over the bench while touch is locked. Two touches, at the foot and then at the head, open it. */
export function LockCover() {
  const asked = lock.value === "asked";
  const button = useRef<HTMLButtonElement>(null);
  useEffect(() => button.current?.focus({ preventScroll: true }), [asked]);
  return (
    <div
      class="lock"
      onPointerDown={(event) => {
        if (event.target === event.currentTarget) touchedElsewhere();
      }}
    >
      {asked ? (
        <button key="head" ref={button} type="button" class="answer main lock-head" onClick={openTouch}>
          Touch here to unlock
        </button>
      ) : (
        <button key="foot" ref={button} type="button" class="answer lock-foot" onClick={askToOpen}>
          Touch is locked. Unlock?
        </button>
      )}
    </div>
  );
}
