import "./shelf.css";
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, type Shelf as Kept, Refused, type ShelfMaking, type ShelfPattern } from "../../api";
import { Thread } from "../../look/Thread";
import { maker } from "../../maker";
import { toBench, toRead } from "../../route";
import { draft } from "../read/draft";
import { Likes } from "./Likes";
import { copyName, extent, looked, recap } from "./recap";

/** The first screen: what is on the hook, what else is begun, what may be begun. */
export function Shelf() {
  const kept = useSignal<Kept | null>(null);
  const say = useSignal("");
  const likes = useSignal(false);

  async function look(): Promise<void> {
    try {
      const shelf = await api.shelf();
      kept.value = shelf;
      maker.value = shelf.maker;
      say.value = "";
    } catch (why) {
      say.value = why instanceof Refused ? why.say : String(why);
    }
  }

  useEffect(() => {
    document.title = "Hookside";
    void look();
    const again = () => {
      if (document.visibilityState === "visible") void look();
    };
    document.addEventListener("visibilitychange", again);
    const trying = setInterval(() => {
      if (say.value) void look();
    }, 3000);
    return () => {
      document.removeEventListener("visibilitychange", again);
      clearInterval(trying);
    };
  }, []);

  async function putAway(id: number): Promise<void> {
    try {
      await api.putAway(id);
    } catch (why) {
      say.value = why instanceof Refused ? why.say : String(why);
      return;
    }
    await look();
  }

  const shelf = kept.value;
  const [first, ...others] = shelf ? byNewest(shelf.makings) : [];
  return (
    <main class="page shelf">
      <header>
        <h1 class="name">Hookside</h1>
        <button
          type="button"
          class="word"
          aria-expanded={likes.value}
          aria-controls="likes"
          onClick={() => {
            likes.value = !likes.value;
          }}
        >
          How you like it
        </button>
        <div class="yarn">
          <Thread />
        </div>
      </header>
      {likes.value && <Likes />}
      <p role="status" class={say.value ? "note" : "said"}>
        {say.value}
      </p>
      {shelf && (
        <div class="body">
          {first ? <Lead making={first} putAway={putAway} /> : <Welcome />}
          <Paste />
          {others.length > 0 && (
            <section>
              <h2>Also begun</h2>
              <ul class="rows">
                {others.map((m) => (
                  <Other key={m.id} making={m} putAway={putAway} />
                ))}
              </ul>
            </section>
          )}
          <div class="patterns">
            <Patterns title="Your patterns" patterns={shelf.patterns.filter((p) => p.source === "yours")} />
            <Patterns title="Ours, ready to begin" patterns={smallFirst(shelf.patterns)} />
          </div>
        </div>
      )}
    </main>
  );
}

/** Newest work first; finished ones last. */
function byNewest(makings: ShelfMaking[]): ShelfMaking[] {
  const at = (m: ShelfMaking) => Date.parse(m.worked ?? m.begun) || 0;
  return [...makings].sort((a, b) => Number(a.finished) - Number(b.finished) || at(b) - at(a));
}

/** Ours, the quickest to finish first: a newcomer begins there. */
function smallFirst(patterns: ShelfPattern[]): ShelfPattern[] {
  const work = (p: ShelfPattern) => p.pieces.reduce((sum, piece) => sum + piece.make * piece.courses, 0);
  return patterns.filter((p) => p.source === "own").sort((a, b) => work(a) - work(b));
}

function Welcome() {
  return (
    <section class="lead">
      <h2>Both hands stay on the yarn</h2>
      <p class="recap">
        Hookside reads a written pattern, knows where your hook is and says what comes next. Begin with one of ours, or
        paste your own.
      </p>
    </section>
  );
}

function Paste() {
  return (
    <a class="paste" href={toRead(null)}>
      <strong>Paste a pattern</strong>
      <span class="soft">
        {draft(null)
          ? "The one you were writing is still here."
          : "As the designer wrote it. Hookside counts every round before you begin."}
      </span>
    </a>
  );
}

interface Held {
  making: ShelfMaking;
  putAway: (id: number) => Promise<void>;
}

function PutAway({ making, putAway, asking }: Held & { asking: { value: boolean } }) {
  if (!asking.value)
    return (
      <button
        type="button"
        class="word soft"
        aria-label={`Put away ${making.title}`}
        onClick={() => {
          asking.value = true;
        }}
      >
        Put away
      </button>
    );
  return (
    <p class="asks">
      Its place is forgotten, the pattern stays.{" "}
      <button type="button" class="word" onClick={() => void putAway(making.id)}>
        Yes, put it away
      </button>{" "}
      <button
        type="button"
        class="word"
        onClick={() => {
          asking.value = false;
        }}
      >
        Keep it
      </button>
    </p>
  );
}

function Lead({ making, putAway }: Held) {
  const asking = useSignal(false);
  const { stopped, comes } = recap(making, new Date());
  const at = making.in_hand;
  return (
    <section class="lead" aria-label="On the hook">
      <h2>{making.title}</h2>
      {at && <p class="piece">{copyName(at.piece, at.copy, at.copies)}</p>}
      <p class="recap">
        {stopped} {comes && <span class="comes">{comes}</span>}
      </p>
      {making.asides > 0 && <p class="note">Your devices do not agree on the place. Hookside asks when you resume.</p>}
      <div class="deeds">
        <a class="tape" href={toBench(making.id)}>
          {making.finished ? "Look at it" : making.worked ? "Resume" : "Begin"}
        </a>
        <PutAway making={making} putAway={putAway} asking={asking} />
      </div>
    </section>
  );
}

function Other({ making, putAway }: Held) {
  const asking = useSignal(false);
  const { stopped } = recap(making, new Date());
  const at = making.in_hand;
  return (
    <li class="row">
      <a href={toBench(making.id)}>
        <strong>{making.title}</strong>
        <span class="soft">
          {at && !making.finished ? `${copyName(at.piece, at.copy, at.copies)}. ` : ""}
          {stopped}
        </span>
      </a>
      <PutAway making={making} putAway={putAway} asking={asking} />
    </li>
  );
}

function Patterns({ title, patterns }: { title: string; patterns: ShelfPattern[] }) {
  if (!patterns.length) return null;
  return (
    <section>
      <h2>{title}</h2>
      <ul class="rows">
        {patterns.map((p) => (
          <li class="row" key={p.id}>
            <a href={toRead(p.id)}>
              <strong>{p.title || "Without a title"}</strong>
              <span class="soft">{extent(p)}</span>
              {looked(p.findings) && <span class="look"> {looked(p.findings)}</span>}
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
