import { useEffect, useMemo, useState } from "preact/hooks";
import { api, type KeptFabric, Refused, type Size } from "../../api";
import { hoopsMade } from "../../drawings/outline";
import { OutlineDrawing } from "../../drawings/OutlineDrawing";
import type { Making } from "../../follow/making";
import { toSize } from "../../route";
import { FabricOfYours } from "../size/Fabric";
import { cm, isDisc, length, opening } from "../size/words";
import { pieceName, type Seen } from "./seen";
import { Sheet } from "./sheet";

interface Props {
  pattern: string | number;
  id: number;
  making: Making;
  seen: Seen;
  close: () => void;
}

type Found = Size | { say: string } | null;

/** The piece in hand as it will look: what is worked filled, where the hook is, how wide it stands open. */
export function ShapeSheet({ pattern, id, making, seen, close }: Props) {
  const [found, setFound] = useState<Found>(null);
  useEffect(() => {
    let here = true;
    api
      .sizeOfMaking(id)
      .catch((why: unknown) => ({ say: why instanceof Refused ? why.say : "The shape could not be worked out just now." }))
      .then((size) => here && setFound(size));
    return () => {
      here = false;
    };
  }, [id]);
  // Redrawn at every step is only what follows the hook.
  const fabric = useMemo(
    () => found && !("say" in found) && <OfThisMaking pattern={pattern} making={making} size={found} taken={setFound} />,
    [found, pattern, making],
  );
  return (
    <Sheet title={pieceName(seen)} close={close} walked>
      {found === null ? (
        <p role="status">Working it out.</p>
      ) : "say" in found ? (
        <p role="alert">{found.say}</p>
      ) : (
        <>
          <Shape size={found} seen={seen} pattern={pattern} />
          {fabric}
        </>
      )}
    </Sheet>
  );
}

/** Her fabric in this making: openings are hers then, and with them where something is due, once she has been asked. */
function OfThisMaking({ pattern, making, size, taken }: { pattern: string | number; making: Making; size: Size; taken: (size: Size) => void }) {
  const [busy, setBusy] = useState(false);
  const [[trouble, measured], tell] = useState<[string, string]>(["", ""]);
  const measure = async (fabric: KeptFabric) => {
    setBusy(true);
    try {
      const found = await api.sizeBy(pattern, fabric);
      const { gauge = "", used = "", yarn = "", hook = "" } = found.said;
      const kept = making.choose([{ choice: "gauge", value: gauge || used || yarn || hook ? { gauge, used, yarn, hook } : null }]);
      if (kept) taken(found);
      tell(kept ? ["", "Kept for this making. If stuffing or eyes are due elsewhere by it, the bench asks you first."] : [NOT_NOW, ""]);
    } catch (why) {
      tell([why instanceof Refused ? why.say : NOT_NOW, ""]);
    }
    setBusy(false);
  };
  return <FabricOfYours said={size.said} busy={busy} trouble={trouble} measured={measured} measure={measure} ask="Work by this" />;
}

const NOT_NOW = "This could not be kept just now. Try again in a moment.";

function Shape({ size, seen, pattern }: { size: Size; seen: Seen; pattern: string | number }) {
  const piece = size.pieces.find((p) => p.name === seen.piece && p.openings_mm.length === seen.strand.courses.length);
  if (!piece) return <p>This piece has no rounds or rows that could be measured, or its text was changed since it was begun.</p>;
  const { course: index } = seen.spot;
  const course = index === null ? undefined : seen.strand.courses[index];
  const steps = course ? course.end - course.first : 0;
  const share = course && steps > 0 ? Math.min(1, Math.max(0, seen.at - course.first) / steps) : 0;
  const made = hoopsMade(piece.openings_mm, index, share, seen.at >= seen.strand.length);
  const [start, now] = [piece.profile_mm[0], piece.profile_mm[Math.floor(made)]];
  const flat = start !== undefined && now !== undefined && Math.abs(now[1] - start[1]) < now[0] / 2;
  const last = piece.openings_mm.slice(0, index ?? piece.openings_mm.length).findLast((mm) => mm !== null);
  const rows = course?.kind === "row";
  return (
    <>
      <figure class="shape">
        <OutlineDrawing
          profile={piece.profile_mm}
          straight={piece.straight_mm}
          made={made}
          corners={piece.corners}
          strip={piece.lies_flat}
          stands={piece.joined !== null}
          label={`${piece.name}, ${length(piece.height_mm)} high when done; the part that is worked is filled.`}
        />
      </figure>
      {last !== undefined && last !== null && (
        <p class="shape-open">{rows ? `${cm(last)} cm wide now` : flat ? `Now ${cm(last)} cm across` : `Now ${opening(last)}`}</p>
      )}
      <p>
        When it is done:{" "}
        {isDisc(piece) ? "" : `${length(piece.height_mm)} ${piece.lies_flat ? "long" : "high"}; `}
        {length(piece.width_mm)} {isDisc(piece) ? "across" : "wide"}.{" "}
        {size.basis[0]}
      </p>
      <p>
        <a class="word" href={toSize(pattern)}>
          All pieces, yarn, stuffing, your own fabric
        </a>
      </p>
    </>
  );
}
