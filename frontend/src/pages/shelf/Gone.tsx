import type { Off } from "./Rows";

/** What was just taken off, and its way back. */
export const Gone = ({ off, bring }: { off: Off; bring: () => void }) => (
  <p class="gone" role="status">
    {off.say}{" "}
    <button type="button" class="word" onClick={bring}>
      Bring it back
    </button>
  </p>
);
