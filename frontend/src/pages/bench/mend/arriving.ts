import { useEffect, useRef } from "preact/hooks";

const PATIENCE_MS = 8000;

/**
 * Calls `then` once the bench knows of row `awaited`: a move that is made before that would be made on the strand that
 * was left. Where the row does not come, for as long as anybody waits.
 */
export function useArrived(awaited: number | null, head: number, then: () => void): void {
  const now = useRef(then);
  now.current = then;
  const arrived = awaited !== null && head >= awaited;
  useEffect(() => {
    if (arrived) now.current();
  }, [arrived]);
  useEffect(() => {
    if (awaited === null) return undefined;
    const over = setTimeout(() => now.current(), PATIENCE_MS);
    return () => clearTimeout(over);
  }, [awaited]);
}
