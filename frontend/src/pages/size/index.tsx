import "./size.css";
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, type KeptFabric, Refused, type Size } from "../../api";
import { toGather, toRead, toShelf } from "../../route";
import { FabricOfYours } from "./Fabric";
import { PieceSize } from "./PieceSize";
import { cm, grams, isDisc, metres, short, toScale } from "./words";

/** How large it becomes and what it takes: every figure with its spread and where it comes from. */
export function SizePage({ id, making }: { id: string; making: number | null }) {
  const size = useSignal<Size | null>(null);
  const trouble = useSignal("");
  const busy = useSignal(false);
  const measured = useSignal("");

  useEffect(() => {
    document.title = "Size, yarn, stuffing · Hookside";
    let here = true;
    api
      .size(id)
      .then((found) => here && (size.value = found))
      .catch((why: unknown) => here && (trouble.value = said(why)));
    return () => {
      here = false;
    };
  }, [id]);

  async function measure(fabric: KeptFabric): Promise<void> {
    busy.value = true;
    trouble.value = measured.value = "";
    try {
      const found = await api.setFabric(id, fabric);
      size.value = found;
      measured.value = anew(found);
    } catch (why) {
      trouble.value = said(why);
    }
    busy.value = false;
  }

  const found = size.value;
  const scale = toScale(found?.pieces ?? []);
  return (
    <main class="page size">
      <nav>
        <a class="word" href={toShelf}>
          Shelf
        </a>
        <a class="word" href={toRead(id)}>
          The pattern
        </a>
        <a class="word" href={toGather(id, making)}>
          What to have at hand
        </a>
      </nav>
      <h1>Size, yarn, stuffing</h1>
      {trouble.value && !found && <p role="alert">{trouble.value}</p>}
      {!found && !trouble.value && <p role="status">Working it out.</p>}
      {found && (
        <>
          {found.warnings.map((warning) => (
            <p key={warning} class="warns">
              {warning}
            </p>
          ))}
          {found.pieces.length === 0 && <p>There is no round and no row here that could be measured.</p>}
          <div class="pieces">
            {found.pieces.map((piece, i) => (
              <PieceSize key={i} piece={piece} {...(scale[i] ?? { share: 1, larger: false })} />
            ))}
          </div>
          {found.whole && (
            <section>
              <h2>Put together</h2>
              {found.whole.said.map((line, i) => (
                <p key={line} class={i ? "soft" : ""}>
                  {line}
                </p>
              ))}
            </section>
          )}
          <section>
            <h2>All copies together</h2>
            <dl class="table">
              <dt>Yarn, tails with it</dt>
              <dd>{metres(found.yarn_m)}</dd>
              {Object.keys(found.yarn_m.by_colour).length > 1 &&
                Object.entries(found.yarn_m.by_colour).map(([colour, m]) => [
                  <dt key={colour}>{colour || "no colour named"}</dt>,
                  <dd key={`${colour}.`}>about {short(m)} m</dd>,
                ])}
              {found.yarn_g && (
                <>
                  <dt>in grams</dt>
                  <dd>{grams(found.yarn_g)}</dd>
                </>
              )}
              {found.stuffing_g.value > 0 && (
                <>
                  <dt>Stuffing</dt>
                  <dd>
                    {short(found.stuffing_g.low)} g when light, {short(found.stuffing_g.high)} g when firm
                  </dd>
                </>
              )}
            </dl>
          </section>
          <FabricOfYours said={found.said} busy={busy.value} trouble={trouble.value} measured={measured.value} measure={measure} />
          <section>
            <h2>How this was worked out</h2>
            <ul class="plain-list">
              {found.basis.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </section>
          {found.stuffing_g.value > 0 && (
            <p class="soft">
              Any soft toy may come into the hands of a baby. Embroider the eyes: plastic ones can come off. No beads, wire or loose
              pellets, and nothing so small that a child under three can swallow it. Your local rules for toys decide.
            </p>
          )}
        </>
      )}
    </main>
  );
}

/** What has changed, said where it was asked for: the figures themselves stand further up. */
function anew({ pieces, warnings }: Size): string {
  const sizes = pieces
    .filter((p) => p.height_mm.value > 0)
    .slice(0, 3)
    .map((p) => `${p.name || "the piece"} ${cm(isDisc(p) ? p.width_mm.value : p.height_mm.value)} cm ${isDisc(p) ? "across" : p.lies_flat ? "long" : "high"}`);
  const begun = "What is under way keeps its own fabric: it is set on its bench, under Shape so far.";
  return [`Worked out anew: ${sizes.join(", ") || "only yarn"}.`, ...warnings, begun].join(" ");
}

const said = (why: unknown): string =>
  why instanceof Refused ? why.say : "It could not be worked out just now. Try again in a moment.";
