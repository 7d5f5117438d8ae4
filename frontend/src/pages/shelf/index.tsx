import "./shelf.css";
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, type Shelf as Kept, Refused, type ShelfMaking, type ShelfPattern } from "../../api";
import { Thread } from "../../look/Thread";
import { maker } from "../../maker";
import { go, toBench, toRead } from "../../route";
import { draft, firstLine, shelveDraft } from "../read/draft";
import { Likes } from "./Likes";
import { Doors } from "./Doors";
import { gather, yarnOf } from "./gather";
import { Here } from "./Here";
import { copyName, extent, looked, recap } from "./recap";
import { remembered } from "./remembered";

/** An answer that takes longer than this is not waited for: what is remembered is shown until it comes. */
const SLOW_MS = 300;

/** The first screen: what is on the hook, what else is begun, what may be begun. */
export function Shelf() {
  const kept = useSignal<Kept | null>(null);
  const say = useSignal("");
  const likes = useSignal(false);
  const gone = useSignal<ShelfMaking | null>(null);

  /** As it was the last time, where the server takes long or is away. */
  async function remember(): Promise<boolean> {
    const old = kept.value ? undefined : await remembered().catch(() => undefined);
    if (old && !kept.value) {
      kept.value = old;
      maker.value = old.maker;
    }
    return kept.value !== null;
  }

  async function look(): Promise<void> {
    const slow = setTimeout(() => void remember(), SLOW_MS);
    try {
      const shelf = await api.shelf();
      kept.value = shelf;
      maker.value = shelf.maker;
      say.value = "";
      gather(shelf);
    } catch (why) {
      const words = why instanceof Refused ? why.say : String(why);
      say.value = (await remember()) ? `${words} What this device remembers is here to go on with.` : words;
    } finally {
      clearTimeout(slow);
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

  /** Does it, looks again, and says when it could not be done. */
  async function deed(work: () => Promise<unknown>): Promise<void> {
    try {
      await work();
    } catch (why) {
      say.value = why instanceof Refused ? why.say : String(why);
      return;
    }
    await look();
  }
  const putAway = (making: ShelfMaking) =>
    deed(async () => {
      await api.putAway(making.id);
      gone.value = making;
    });
  const bringBack = (making: ShelfMaking) =>
    deed(async () => {
      await api.bringBack(making.id);
      gone.value = null;
    });

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
      {gone.value && (
        <p class="gone" role="status">
          {gone.value.title} is put away, with its place.{" "}
          <button type="button" class="word" onClick={() => gone.value && void bringBack(gone.value)}>
            Bring it back
          </button>
        </p>
      )}
      {shelf && (
        <div class="body">
          {first ? <Lead making={first} pattern={shelf.patterns.find((p) => p.id === first.pattern)} putAway={putAway} /> : <Welcome />}
          <Paste refused={(words) => (say.value = words)} />
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
          <Doors />
          {shelf.away.length > 0 && <Away makings={shelf.away} bringBack={bringBack} />}
          <Here />
        </div>
      )}
    </main>
  );
}

/** Newest work first; finished ones last. */
function byNewest(makings: ShelfMaking[]): ShelfMaking[] {
  // One that was gone on with here, and only the server would know when, is the newest.
  const at = (m: ShelfMaking) => (m.worked === "" ? Number.MAX_VALUE : Date.parse(m.worked ?? m.begun) || 0);
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

/** An empty sheet. A text that was never started nor kept is offered first; beginning anew puts it on the shelf. */
function Paste({ refused }: { refused: (say: string) => void }) {
  const unfinished = draft(null);
  if (!unfinished)
    return (
      <a class="paste" href={toRead(null)}>
        <strong>Paste a pattern</strong>
        <span class="soft">As the designer wrote it. Hookside counts every round before you begin.</span>
      </a>
    );
  const anew = async () => {
    try {
      await shelveDraft();
    } catch (why) {
      refused(why instanceof Refused ? why.say : String(why));
      return;
    }
    go(toRead(null));
  };
  return (
    <section class="paste" aria-label="Paste a pattern">
      <a href={toRead(null)}>
        <strong>Go on with the text you were writing</strong>
        <span class="soft">{firstLine(unfinished.text)}</span>
      </a>
      <button type="button" class="word" onClick={() => void anew()}>
        Paste a new one; that text goes on your shelf
      </button>
    </section>
  );
}

const sentence = (text: string) => `${text.slice(0, 1).toUpperCase()}${text.slice(1)}.`;

interface Held {
  making: ShelfMaking;
  putAway: (making: ShelfMaking) => Promise<void>;
}

function PutAway({ making, putAway }: Held) {
  return (
    <button type="button" class="word soft" aria-label={`Put away ${making.title}`} onClick={() => void putAway(making)}>
      Put away
    </button>
  );
}

/** Out of sight, not gone: each with the place it had. */
function Away({ makings, bringBack }: { makings: ShelfMaking[]; bringBack: (making: ShelfMaking) => Promise<void> }) {
  return (
    <details class="away">
      <summary class="word">Put away: {makings.length}</summary>
      <ul class="rows">
        {makings.map((m) => (
          <li class="row" key={m.id}>
            <p>
              <strong>{m.title}</strong>
              <span class="soft">{recap(m, new Date()).stopped}</span>
            </p>
            <button type="button" class="word" aria-label={`Bring back ${m.title}`} onClick={() => void bringBack(m)}>
              Bring back
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}

function Lead({ making, pattern, putAway }: Held & { pattern: ShelfPattern | undefined }) {
  const { stopped, comes } = recap(making, new Date());
  const at = making.in_hand;
  const yarn = useSignal<string | null>(null);
  useEffect(() => {
    void yarnOf(making.id).then((found) => (yarn.value = found));
  }, [making.id, making.head]);
  const needs = [pattern?.hook && `Hook ${pattern.hook.replace(/ hook$/i, "")}`, yarn.value && `yarn in hand: ${yarn.value}`].filter(Boolean);
  return (
    <section class="lead" aria-label="On the hook">
      <h2>{making.title}</h2>
      {at && <p class="piece">{copyName(at.piece, at.copy, at.copies)}</p>}
      <p class="recap">
        {making.damaged ?? stopped} {comes && <span class={`comes ${at?.next_cue?.waits ? "waits" : ""}`}>{comes}</span>}
      </p>
      {needs.length > 0 && !making.finished && <p class="needs">{sentence(needs.join(", "))}</p>}
      {making.asides > 0 && <p class="note">Your devices do not agree on the place. Hookside asks when you resume.</p>}
      {making.edited && !making.finished && <p class="note">The pattern was changed. Hookside asks about it when you resume.</p>}
      <div class="deeds">
        <a class="tape" href={toBench(making.id)}>
          {making.finished ? "Look at it" : making.worked !== null ? "Resume" : "Begin"}
        </a>
        <PutAway making={making} putAway={putAway} />
      </div>
    </section>
  );
}

function Other({ making, putAway }: Held) {
  const { stopped, comes } = recap(making, new Date());
  const at = making.in_hand;
  return (
    <li class="row">
      <a href={toBench(making.id)}>
        <strong>{making.title}</strong>
        <span class="soft">
          {at && !making.finished ? `${copyName(at.piece, at.copy, at.copies)}. ` : ""}
          {making.damaged ?? stopped}
          {at?.next_cue?.waits && <span class="comes"> {comes}</span>}
        </span>
      </a>
      <PutAway making={making} putAway={putAway} />
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
              <span class="soft">{p.cannot_read ?? extent(p)}</span>
              {!p.cannot_read && looked(p.findings) && <span class="look"> {looked(p.findings)}</span>}
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
