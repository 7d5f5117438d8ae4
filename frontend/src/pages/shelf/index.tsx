import "./shelf.css";
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, type Shelf as Kept, Refused, type ShelfMaking } from "../../api";
import { Thread } from "../../look/Thread";
import { choices, maker, told } from "../../maker";
import { go, toCards, toRead } from "../../route";
import { late } from "../bench/late";
import { draft, firstLine, shelveDraft } from "../read/draft";
import { byNewest, lastWorked, smallFirst, WORTH_FINDING } from "./order";
import type { Dropping, Tally } from "./drop";
import { gather } from "./gather";
import { Here } from "./Here";
import { Lead, type Off, Other, Patterns } from "./Rows";

// Below everything else, and seldom opened.
const Likes = late(() => import("./Likes").then((m) => m.Likes));

const around = () => import("./around");

/** An answer that takes longer than this is not waited for: what is remembered is shown until it comes. */
const SLOW_MS = 300;

/** Looks at the shelf, counted: an answer that was overtaken by a later one's must not put the old shelf back. */
let looks = 0;
let newest = 0;

/** The first screen: what is on the hook, what else is begun, what may be begun. */
export function Shelf() {
  const kept = useSignal<Kept | null>(null);
  const say = useSignal("");
  const took = useSignal<{ tally: Tally; ways: Dropping } | null>(null); // of files that were dropped: stays until it was read
  const likes = useSignal(false);
  const off = useSignal<Off | null>(null);
  const finding = useSignal(false);
  const asked = useSignal("");
  const slow = useSignal(false); // nothing is remembered here, and the server takes its time
  const room = useSignal<Awaited<ReturnType<typeof around>> | null>(null);

  /** As it was the last time, where the server takes long or is away. */
  async function remember(): Promise<boolean> {
    const old = kept.value ? undefined : await around().then((found) => found.remembered()).catch(() => undefined);
    if (old && !kept.value) {
      kept.value = old;
      maker.value = old.maker;
    }
    return kept.value !== null;
  }

  async function look(): Promise<void> {
    const mine = ++looks;
    const chosen = choices();
    const late = setTimeout(() => void remember().then((had) => void (slow.value = !had)), SLOW_MS);
    try {
      const shelf = await api.shelf();
      if (mine < newest) return; // a later one was answered first
      newest = mine;
      kept.value = shelf;
      told(shelf.maker, chosen);
      say.value = "";
      gather(shelf);
    } catch (why) {
      if (mine < newest) return;
      const words = why instanceof Refused ? why.say : String(why);
      say.value = (await remember()) ? `${words} What this device remembers is here to go on with.` : words;
    } finally {
      clearTimeout(late);
    }
  }

  useEffect(() => {
    document.title = "Hookside";
    void look().then(() => import("./Likes").catch(() => undefined)); // at hand when the server is away
    const again = () => {
      if (document.visibilityState === "visible") void look();
    };
    const ends: (() => void)[] = [];
    let here = true;
    void around().then((found) => {
      if (!here) return;
      room.value = found;
      off.value ??= found.keptOff();
      const ways = found.dropping((tally) => {
        took.value = { tally, ways };
        return tally.done ? look() : Promise.resolve(); // until then the news of each file comes from the server
      });
      ends.push(found.watching(look), ways.end);
    }, () => undefined);
    document.addEventListener("visibilitychange", again);
    const trying = setInterval(() => {
      if (say.value) void look();
    }, 3000);
    return () => {
      document.removeEventListener("visibilitychange", again);
      clearInterval(trying);
      here = false;
      for (const end of ends) end();
    };
  }, []);

  /** Does it, looks again, and says when it could not be done. */
  async function deed(work: () => Promise<unknown>, taken: Off | null = null): Promise<void> {
    try {
      await work();
    } catch (why) {
      say.value = why instanceof Refused ? why.say : String(why);
      return;
    }
    off.value = taken;
    room.value?.keepOff(taken);
    await look();
  }

  const all = kept.value;
  const found = room.value;
  const shelf = all && (found?.findOn(all, asked.value) ?? all);
  const worth = all !== null && all.makings.length + all.away.length + all.patterns.length >= WORTH_FINDING;
  const looking = asked.value.trim() !== "";
  const [first, ...others] = shelf ? byNewest(shelf.makings) : [];
  const rows = (title: string, makings: ShelfMaking[]) =>
    makings.length > 0 && (
      <section>
        <h2>{title}</h2>
        <ul class="rows">
          {makings.map((m) => (
            <Other key={m.id} making={m} deed={deed} alike={alike(m)} />
          ))}
        </ul>
      </section>
    );
  const alike = (making: ShelfMaking) => all?.makings.some((m) => m !== making && m.title === making.title) ?? false;
  return (
    <main class="page shelf">
      <header>
        <h1 class="name">Hookside</h1>
        {worth && (
          <button
            type="button"
            class="word"
            aria-expanded={finding.value}
            onClick={() => {
              finding.value = !finding.value;
              asked.value = "";
            }}
          >
            Find
          </button>
        )}
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
        <a class="word" href={toCards(null)}>
          How it is done
        </a>
        <div class="yarn">
          <Thread />
        </div>
      </header>
      {finding.value && all && found && <found.Find shelf={all} asked={asked.value} ask={(words) => (asked.value = words)} />}
      {likes.value && <Likes />}
      <p role="status" class={say.value ? "note" : slow.value && !all ? "soft" : "said"}>
        {say.value || (slow.value && !all && "Looking at what is on the shelf.")}
      </p>
      {off.value && found && <found.Gone off={off.value} bring={() => void deed(async () => off.value && found.back(off.value))} />}
      {shelf && all && (
        <div class="body">
          {first ? <Lead key={first.id} making={first} pattern={all.patterns.find((p) => p.id === first.pattern)} deed={deed} alike={alike(first)} /> : !looking && <Welcome />}
          {looking ? nothingOn(shelf) && <p class="note">Nothing on the shelf is called that.</p> : <Paste refused={(words) => (say.value = words)} />}
          {rows("Also begun", others.filter((m) => !m.finished))}
          {rows("Worked", others.filter((m) => m.finished))}
          <div class="patterns">
            <Patterns
              title="Your patterns"
              patterns={lastWorked(shelf.patterns.filter((p) => p.source === "yours"), [...all.makings, ...all.away])}
              deed={deed}
            />
            <Patterns title="Ours, ready to begin" patterns={smallFirst(shelf.patterns)} deed={deed} />
          </div>
          {found && <found.Doors />}
          {shelf.away.length > 0 && found && <found.Away makings={shelf.away} deed={deed} open={looking} />}
          <Here />
        </div>
      )}
      {took.value && found && <found.Took {...took.value} close={() => (took.value = null)} />}
    </main>
  );
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

const nothingOn = (shelf: Kept) => !shelf.makings.length && !shelf.away.length && !shelf.patterns.length;
