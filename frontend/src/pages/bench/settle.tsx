import type { Aside, Snapshot } from "../../api";
import { useEffect, useState } from "preact/hooks";
import { device } from "../../follow/device";
import { locate } from "../../follow/place";
import type { MakingState } from "../../follow/stepping";
import type { Box } from "./box";
import { Halt } from "./halt";
import { placeBrief } from "./place";

interface Props {
  snapshot: Snapshot;
  state: MakingState;
  asides: readonly Aside[];
  box: Box;
  settle: (run: string, to: number) => void;
}

/** Two devices may have the same name: the one that is looked at is "this phone", any other "the other phone". */
const whose = (aside: Aside, own: string): string => {
  const name = aside.device_name || "device";
  return aside.device === own ? `this ${name}` : `the other ${name}`;
};

/** Two devices disagree: asked as a person would, answered by one touch. */
export function Settle({ snapshot, state, asides, box, settle }: Props) {
  const [own, setOwn] = useState("");
  useEffect(() => {
    void device().then((here) => setOwn(here.outbox.device), () => undefined);
  }, []);
  const run = asides[0]?.run ?? "";
  const now = state.runs[run];
  const strand = now && snapshot.strands[now.strand];
  if (!now || !strand) return null;
  const brief = (at: number) => {
    const spot = locate(strand, at);
    return placeBrief(spot, spot.course === null ? undefined : strand.courses[spot.course]);
  };
  // The newest word of each device is the one that counts.
  const others = new Map(asides.filter((a) => a.run === run).map((a) => [a.device, a]));
  const claims = [
    { who: "the bench", at: now.at },
    ...[...others.values()].map((a) => ({ who: whose(a, own), at: a.to })),
  ];
  const said = claims.map((c) => `${c.who} says ${brief(c.at)}`).join("; ");
  const places = [...new Map(claims.map((c) => [c.at, c])).values()];
  return (
    <Halt
      what={`settle-${asides.map((a) => a.row).join("-")}`}
      title="Where is your marker?"
      body={`${said.slice(0, 1).toUpperCase()}${said.slice(1)}.`}
      why="Count from the marker to the hook; touch the one that is right."
      box={box}
      tone="waits"
      answers={places.map((p) => ({
        text: brief(p.at),
        main: true,
        act: () => settle(run, p.at),
      }))}
    />
  );
}
