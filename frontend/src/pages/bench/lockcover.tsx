import { askToOpen, lock, openTouch, touchedElsewhere } from "../../hands/lock";

/**
 * Lies over the bench while touch is locked. Two touches, at the foot and then at the head, open it. It takes no focus:
 * a pedal that sends Enter must go on moving the hook.
 */
export function LockCover() {
  const asked = lock.value === "asked";
  return (
    <div
      class="lock"
      onPointerDown={(event) => {
        if (event.target === event.currentTarget) touchedElsewhere();
      }}
    >
      {asked ? (
        <button key="head" type="button" class="answer main lock-head" onClick={openTouch}>
          Touch here to unlock
        </button>
      ) : (
        <button key="foot" type="button" class="answer lock-foot" onClick={askToOpen}>
          Touch is locked. Unlock?
        </button>
      )}
    </div>
  );
}
