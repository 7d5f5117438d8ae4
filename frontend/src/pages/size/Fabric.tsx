import "./fabric.css";
import { useState } from "preact/hooks";
import type { KeptFabric } from "../../api";

interface Props {
  said: KeptFabric;
  busy: boolean;
  /** Why what was said cannot be measured with; "" where it can. */
  trouble: string;
  /** What the button does. */
  ask?: string;
  /** What came of it, in a few words. */
  measured: string;
  measure: (fabric: KeptFabric) => Promise<void>;
}

const FIELDS: readonly [keyof KeptFabric, string, string][] = [
  ["gauge", "Your swatch", "20 sts and 22 rounds = 10 cm"],
  ["used", "Yarn you unravelled", "20 stitches used 46 cm"],
  ["yarn", "Another yarn", "DK, or 100 g = 210 m"],
  ["hook", "Another hook", "3.5 mm"],
];

/** What the maker measured or has instead: the figures above follow it. */
export function FabricOfYours({ said, busy, trouble, measured, measure, ask = "Work it out again" }: Props) {
  const [now, set] = useState<KeptFabric>(said);
  return (
    <section class="own-fabric">
      <h2>Your own fabric</h2>
      <p>Crochet ten stitches, measure them, and the sizes above become yours. What you leave empty stays as the pattern has it.</p>
      <form
        class="fabric"
        onSubmit={(event) => {
          event.preventDefault();
          void measure(now);
        }}
      >
        {FIELDS.map(([name, label, example]) => (
          <label key={name}>
            <span>{label}</span>
            <input
              type="text"
              maxLength={200}
              value={now[name] ?? ""}
              placeholder={`for example: ${example}`}
              onInput={(event) => set({ ...now, [name]: event.currentTarget.value })}
            />
          </label>
        ))}
        <button type="submit" class="tape" disabled={busy}>
          {ask}
        </button>
      </form>
      {trouble && (
        <p role="alert" class="answer-below">
          {trouble}
        </p>
      )}
      <p role="status" class="answer-below">
        {measured}
      </p>
    </section>
  );
}
