import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { ShelfMaking, ShelfPattern } from "../../api";
import { toBench, toRead } from "../../route";
import { late } from "../bench/late";
import { Deal } from "./Deal";
import { yarnOf } from "./gather";
import { begunOn, copyName, extent, looked, recap } from "./recap";

// Behind a touch on "More".
const Deals = late(() => import("./Deals").then((m) => m.Deals));

const sentence = (text: string) => `${text.slice(0, 1).toUpperCase()}${text.slice(1)}.`;

/** Does something at the server, looks at the shelf again, and says when it could not be done. */
export type Deeds = (work: () => Promise<unknown>, off?: Off) => Promise<void>;

/** What was just taken from the shelf, in words, and what it was: so it comes back. */
export interface Off {
  say: string;
  was: "begun" | "put away" | "pattern";
  id: string | number;
}

export interface Held {
  making: ShelfMaking;
  deed: Deeds;
}

/** `alike`: another on the shelf has the same title, and when it was begun tells them apart. */
type Shown = Held & { alike: boolean };

const MakingDeal = ({ making, deed }: Held) => (
  <Deal name={making.title}>
    <Deals {...{ making, deed }} />
  </Deal>
);

export function Labels({ labels }: { labels: string[] | undefined }) {
  return labels?.length ? <span class="labels soft">{labels.join(" · ")}</span> : null;
}

export function Lead({ making, pattern, deed, alike }: Shown & { pattern: ShelfPattern | undefined }) {
  const { stopped, comes } = recap(making, new Date());
  const at = making.in_hand;
  const yarn = useSignal<string | null>(null);
  useEffect(() => {
    void yarnOf(making.id).then((found) => (yarn.value = found));
  }, [making.id, making.head]);
  const needs = [pattern?.hook && `Hook ${pattern.hook.replace(/( crochet)? hook$/i, "")}`, yarn.value && `yarn in hand: ${yarn.value}`].filter(Boolean);
  return (
    <section class="lead" aria-label="On the hook">
      <h2>{making.title}</h2>
      <Labels labels={making.labels} />
      {at && <p class="piece">{copyName(at.piece, at.copy, at.copies)}</p>}
      <p class="recap">
        {alike && at && begunOn(making, new Date())}
        {making.damaged ?? stopped} {comes && <span class={`comes ${at?.next_cue?.waits ? "waits" : ""}`}>{comes}</span>}
      </p>
      {needs.length > 0 && !making.finished && <p class="needs">{sentence(needs.join(", "))}</p>}
      {making.asides > 0 && <p class="note">Your devices do not agree on the place. Hookside asks when you resume.</p>}
      {making.edited && !making.finished && <p class="note">The pattern was changed. If your steps are others now, Hookside asks when you resume.</p>}
      <div class="deeds">
        <a class="tape" href={toBench(making.id)}>
          {making.finished ? (making.to_finish ? "Finish it" : "Look at it") : making.worked !== null ? "Resume" : "Begin"}
        </a>
        <MakingDeal making={making} deed={deed} />
      </div>
    </section>
  );
}

export function Other({ making, deed, alike }: Shown) {
  const { stopped, comes } = recap(making, new Date());
  const at = making.in_hand;
  return (
    <li class="row">
      <a href={toBench(making.id)}>
        <strong>{making.title}</strong>
        <span class="soft">
          {at && !making.finished ? `${copyName(at.piece, at.copy, at.copies)}. ` : ""}
          {alike && at && begunOn(making, new Date())}
          {making.damaged ?? stopped}
          {(at?.next_cue?.waits || at?.then?.crocheted || making.finished) && <span class="comes"> {comes}</span>}
        </span>
        <Labels labels={making.labels} />
      </a>
      <MakingDeal making={making} deed={deed} />
    </li>
  );
}

export function Patterns({ title, patterns, deed }: { title: string; patterns: ShelfPattern[]; deed: Deeds }) {
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
              <Labels labels={p.labels} />
            </a>
            <Deal name={p.title || "this pattern"}>
              <Deals {...{ pattern: p, deed }} />
            </Deal>
          </li>
        ))}
      </ul>
    </section>
  );
}
