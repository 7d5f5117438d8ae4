import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, type GatheredList, Refused, type Snapshot } from "../../api";
import { useTicks } from "../../follow/choices";
import type { Making } from "../../follow/making";
import { GatherList } from "../gather/List";
import { forWhat, itemSaid } from "../gather/words";
import { Sheet } from "./sheet";
import { useTaker } from "./taking";
import "../gather/gather.css";

interface Props {
  making: Making;
  snapshot: Snapshot;
  read: (text: string) => void;
  tell: (text: string) => void;
  close: () => void;
}

/** What to have at hand, beside the work: walked and ticked by touch, key, pedal or word. */
export function GatherSheet(props: Props) {
  const found = useSignal<GatheredList | null>(null);
  const why = useSignal("");
  const { id } = props.snapshot;
  useEffect(() => {
    let here = true;
    api.gatherMaking(id).then(
      (list) => here && (found.value = list),
      (trouble: unknown) => here && (why.value = trouble instanceof Refused ? trouble.say : "The list could not be fetched. Try again in a moment."),
    );
    return () => {
      here = false;
    };
  }, [id]);
  return (
    <Sheet title="What to have at hand" close={props.close} walked>
      {found.value === null ? <p role={why.value ? "alert" : "status"}>{why.value || "Making the list."}</p> : <Walked {...props} found={found.value} />}
    </Sheet>
  );
}

function Walked({ making, snapshot, found, read, tell, close }: Props & { found: GatheredList }) {
  const [ticked, tick] = useTicks(making, "gather");
  const { items } = found;
  const first = items.findIndex((item) => !ticked.includes(item.id));
  const at = useSignal(Math.max(0, first));
  const item = items[at.value];
  const say = () => item && read(itemSaid(item, ticked.includes(item.id)));
  useEffect(() => {
    say();
  }, [at.value]);
  const set = (id: string, on: boolean) => {
    if (!tick(id, on)) tell("It could not be ticked just now. Try again in a moment.");
  };
  const last = at.value + 1 >= items.length;
  // Behind the last thing it stays: a press too many would be a stitch.
  const next = () => {
    if (last) read("That was the last. Done goes back to the work.");
    else at.value += 1;
  };
  const back = () => {
    at.value = Math.max(0, at.value - 1);
  };
  const done = () => {
    if (item) set(item.id, true);
    if (last) close();
    else next();
  };
  useTaker({
    answers: ["next", "back", "done", "again", "no", "hold"],
    word: ({ intent }) => {
      if (intent === "next") next();
      else if (intent === "back") back();
      else if (intent === "done") done();
      else if (intent === "again") say();
      else if (intent === "no") close();
      else return false;
      return true;
    },
    key: (ask) => {
      if (ask === "next") next();
      else if (ask === "back") back();
      else if (ask === "done") done();
      else if (ask === "again" || ask === "where") say();
      else if (ask === "gather") close();
    },
  });
  return (
    <div class="gather">
      <p>{forWhat(found)}</p>
      <GatherList found={found} ticked={ticked} tick={set} pattern={String(snapshot.pattern)} making={snapshot.id} at={item?.id} chosen={making.chosen.value} />
    </div>
  );
}
