import { useEffect, useRef, useState } from "preact/hooks";
import type { StrandCue } from "../../generated/pattern";

/** So long without a move is a rest for the hands: the minutes begin anew. */
export const REST_MS = 5 * 60_000;

/** Minutes worked without a rest, at `now`: `moves` are the times of moves in their order, in ms. */
export function workedFor(moves: readonly number[], now: number): number {
  const last = moves.at(-1);
  if (last === undefined || now - last >= REST_MS) return 0;
  let begun = last;
  for (let i = moves.length - 2; i >= 0; i--) {
    const at = moves[i] as number;
    if (begun - at >= REST_MS || at > begun) break;
    begun = at;
  }
  return (now - begun) / 60_000;
}

const KEPT = 2000;

/**
 * A whisper when the hands have worked for so many minutes without a rest; none where the maker wants none (0).
 * The guidance behind it is named in server/hookside/gather/cautions.py.
 */
export function useBreaks(place: string, minutes: number): StrandCue | null {
  const moves = useRef<number[]>([]);
  const [now, look] = useState(0);
  const before = useRef(place);
  useEffect(() => {
    if (before.current !== place && place !== "") moves.current = [...moves.current.slice(-KEPT), Date.now()];
    before.current = place;
    look(Date.now());
  }, [place]);
  useEffect(() => {
    const again = setInterval(() => look(Date.now()), 30_000);
    return () => clearInterval(again);
  }, []);
  if (minutes === 0 || workedFor(moves.current, now) < minutes) return null;
  const say = `A rest for your hands? You have worked for ${minutes} minutes: five to ten without the hook.`;
  const words = { short: "A rest for your hands?", full: say, spoken: say };
  return { address: "/rest", step: 0, kind: "other", text: say, basis: "worked out", weight: "whisper", words };
}
