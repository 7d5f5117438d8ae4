import "./gather.css";
import { useEffect, useMemo, useState } from "preact/hooks";
import { api, AWAY, type GatheredList, Refused } from "../../api";
import { useTicks } from "../../follow/choices";
import { openMaking } from "../../follow/device";
import { toBench, toRead, toShelf } from "../../route";
import { GatherList } from "./List";
import { forWhat } from "./words";

/** What to have at hand before the first stitch: of a pattern, or of a making for what it makes. */
export function GatherPage({ id, making }: { id: string; making: number | null }) {
  useEffect(() => {
    document.title = "What to have at hand · Hookside";
    scrollTo(0, 0);
  }, []);
  return (
    <main class="page gather">
      <nav>
        <a class="word" href={toShelf}>
          Shelf
        </a>
        <a class="word" href={toRead(id)}>
          The pattern
        </a>
        {making !== null && (
          <a class="word" href={toBench(making)}>
            The bench
          </a>
        )}
      </nav>
      <h1>What to have at hand</h1>
      {making === null ? <OfPattern id={id} /> : <OfMaking id={id} making={making} />}
    </main>
  );
}

type Found = GatheredList | { say: string } | null;

function useList(fetch: () => Promise<GatheredList>, by: readonly unknown[]): [Found, (found: GatheredList) => void] {
  const [found, set] = useState<Found>(null);
  useEffect(() => {
    let here = true;
    fetch()
      .catch((why: unknown) => ({ say: said(why) }))
      .then((list) => here && set(list));
    return () => {
      here = false;
    };
  }, by);
  return [found, set];
}

const said = (why: unknown): string => (why instanceof Refused ? why.say : "The list could not be made just now. Try again in a moment.");

function Waiting({ found }: { found: Exclude<Found, GatheredList> }) {
  return found === null ? <p role="status">Making the list.</p> : <p role="alert">{found.say}</p>;
}

/** Before a making is begun: for as many of the whole as she asks for. Its ticks go into the making that is begun. */
function OfPattern({ id }: { id: string }) {
  const [times, setTimes] = useState(1);
  const [trouble, setTrouble] = useState("");
  const [found, set] = useList(() => api.gather(id, times), [id, times]);
  if (found === null || "say" in found) return <Waiting found={found} />;
  const tick = (item: string, on: boolean) => {
    const before = found.ticked ?? [];
    set({ ...found, ticked: on ? [...before, item] : before.filter((one) => one !== item) });
    setTrouble("");
    api.tickGathered(id, item, on).catch((why: unknown) => {
      set({ ...found, ticked: before });
      setTrouble(why instanceof Refused && why.code === AWAY ? "Hookside does not answer, so this tick is not kept. Try again in a moment." : said(why));
    });
  };
  return (
    <>
      <p class="for-what">
        <span>{found.title}: </span>
        {forWhat(found)}
      </p>
      <label class="times">
        <span>How many of the whole</span>
        <input
          type="number"
          min={1}
          max={99}
          value={times}
          onChange={(event) => {
            const n = Math.round(event.currentTarget.valueAsNumber);
            if (n >= 1 && n <= 99) setTimes(n);
            else event.currentTarget.value = String(times);
          }}
        />
      </label>
      <GatherList found={found} ticked={found.ticked ?? []} tick={tick} pattern={id} making={null} />
      {trouble && <p role="alert">{trouble}</p>}
    </>
  );
}

/** Of a making: its ticks are choices of it, kept and shared like moves, also without the server. */
function OfMaking({ id, making: number }: { id: string; making: number }) {
  const making = useMemo(() => openMaking(number), [number]);
  useEffect(() => () => making.close(), [making]);
  const [trouble, setTrouble] = useState("");
  const [found] = useList(() => api.gatherMaking(number), [number]);
  const [ticked, tick] = useTicks(making, "gather");
  if (found === null || "say" in found) return <Waiting found={found} />;
  return (
    <>
      <p class="for-what">
        <span>{found.title}: </span>
        {forWhat(found)}
      </p>
      <GatherList
        found={found}
        ticked={ticked}
        tick={(item, on) => setTrouble(tick(item, on) ? "" : "This could not be kept just now. Try again in a moment.")}
        pattern={id}
        making={number}
        chosen={making.chosen.value}
      />
      {trouble && <p role="alert">{trouble}</p>}
    </>
  );
}
