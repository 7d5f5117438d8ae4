import { useSignal } from "@preact/signals";
import type { Order } from "../../api";
import type { Pattern, Terms } from "../../generated/pattern";
import { maker } from "../../maker";
import type { Desk } from "./desk";

/** In whose words the text is read, why, and the other way. */
export function TermsRead({ desk, pattern }: { desk: Desk; pattern: Pattern }) {
  const other: Terms = pattern.terms === "US" ? "UK" : "US";
  const shown = desk.words.value ?? maker.value.terms ?? pattern.terms;
  return (
    <div class="terms">
      <p>
        <b>{pattern.terms} terms</b>
        {desk.terms.value ? " because you said so." : pattern.terms_because ? ` ${closed(pattern.terms_because)}` : ""}{" "}
        <button type="button" class="word" onClick={() => desk.chooseTerms(other)}>
          No, it is in {other} terms
        </button>
      </p>
      <p>
        Shown in {shown} words.{" "}
        <button type="button" class="word" onClick={() => desk.showTerms(shown === "US" ? "UK" : "US")}>
          Show {shown === "US" ? "UK" : "US"} words
        </button>
      </p>
    </div>
  );
}

const closed = (words: string) => (/[.!?]$/.test(words.trim()) ? words.trim() : `${words.trim()}.`);

/** The order of work, asked only where a piece is made more than once: a sentence, and another way on asking. */
export function OrderOfWork({ desk, pattern }: { desk: Desk; pattern: Pattern }) {
  const asking = useSignal(false);
  const several = pattern.pieces.filter((p, i) => desk.made(pattern, i + 1) > 1 && p.courses.length);
  const first = several[0];
  if (!first) return null;
  const order = desk.order.value;
  const labels = [...new Set(several.flatMap((p) => p.courses.map((c) => c.label)))].filter((l) => l !== "0");
  const middle = labels[Math.floor(labels.length / 2)] ?? "1";
  const choose = (next: Order) => {
    desk.order.value = next;
  };
  const kind = first.courses[0]?.kind ?? "round";
  const level = order.kind === "level" ? order.label : middle;
  const choices: { order: Order; words: string }[] = [
    { order: { kind: "one" }, words: "one after another" },
    { order: { kind: "pair" }, words: `side by side, ${kind} by ${kind}` },
    { order: { kind: "level", label: level }, words: `all to the end of ${order.kind === "level" ? `${kind} ${level}` : `a ${kind}`}, then one after another` },
  ];
  const chosen = choices.find((c) => c.order.kind === order.kind)?.words ?? "";
  const names = several.map((p) => `${desk.made(pattern, pattern.pieces.indexOf(p) + 1)} × ${p.name || "this"}`).join(", ");
  return (
    <section class="copies" aria-label="Order of work">
      <p>
        {names}: <b>{chosen}</b>.{" "}
        <button type="button" class="word" aria-expanded={asking.value} onClick={() => (asking.value = !asking.value)}>
          {asking.value ? "That is how" : "Work them another way"}
        </button>
      </p>
      {asking.value && (
        <fieldset class="choices order">
          <legend class="said">How will you work the copies?</legend>
          {choices.map((c) => (
            <label class="choice" key={c.order.kind}>
              <input type="radio" name="order" checked={order.kind === c.order.kind} onChange={() => choose(c.order)} />
              <span>{c.words}</span>
            </label>
          ))}
          {order.kind === "level" && (
            <label class="level">
              {kind}{" "}
              <select value={level} onChange={(e) => choose({ kind: "level", label: e.currentTarget.value })}>
                {labels.map((l) => (
                  <option key={l} value={l}>
                    {l}
                  </option>
                ))}
              </select>
            </label>
          )}
        </fieldset>
      )}
    </section>
  );
}
