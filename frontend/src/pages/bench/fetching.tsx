import { useEffect, useState } from "preact/hooks";
import { toShelf } from "../../route";

const SLOW_MS = 2500;

/** Before there is anything to show. `absent`: this device has no copy of its own, and all depends on the server. */
export function Fetching({ absent }: { absent: boolean }) {
  const [slow, setSlow] = useState(false);
  useEffect(() => {
    const late = setTimeout(() => setSlow(true), SLOW_MS);
    return () => clearTimeout(late);
  }, []);
  if (!slow || !absent) return <p class="fetching">Fetching your work.</p>;
  return (
    <p class="fetching" role="status">
      Hookside does not answer, and this device has not seen this piece yet. It opens by itself as soon as Hookside is
      there. <a href={toShelf}>Back to the shelf</a>
    </p>
  );
}
