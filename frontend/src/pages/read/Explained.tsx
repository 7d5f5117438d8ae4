import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Refused } from "../../api";
import type { Desk } from "./desk";
import type { Explanation } from "./explanation";

/** How a course was read: its parts with what each was taken for, then the arithmetic, in the server's words. */
export function Explained({ course, desk }: { course: string; desk: Desk }) {
  const told = useSignal<Explanation | null>(null);
  const refused = useSignal("");
  const of = desk.read.value;
  useEffect(() => {
    let gone = false;
    refused.value = "";
    desk.explain(course).then(
      (one) => {
        if (!gone) told.value = one;
      },
      (why: unknown) => {
        if (gone) return;
        told.value = null;
        refused.value = why instanceof Refused ? why.say : "How this was read cannot be shown just now.";
      },
    );
    return () => {
      gone = true;
    };
  }, [course, desk, of]);
  if (refused.value) return <p class="explained soft">{refused.value}</p>;
  if (!told.value) return null;
  const { parts, says } = told.value;
  return (
    <div class="explained">
      <dl>
        {parts.map((part, i) => (
          <div key={i}>
            <dt>{part.text}</dt>
            <dd>{part.sense}</dd>
          </div>
        ))}
      </dl>
      {says.map((sentence, i) => (
        <p key={i}>{sentence}</p>
      ))}
    </div>
  );
}
