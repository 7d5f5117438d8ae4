import "./deals.css";
import { api, type ShelfMaking } from "../../api";
import { type Deeds, Labels } from "./Rows";
import { recap } from "./recap";

/** Out of sight, not gone: each with the place it had. */
export function Away({ makings, deed, open }: { makings: ShelfMaking[]; deed: Deeds; open: boolean }) {
  const takeOff = (m: ShelfMaking) =>
    deed(() => api.takeOff(m.id), { say: `${m.title} is off the shelf.`, was: "put away", id: m.id });
  return (
    <details class="away" open={open}>
      <summary class="word">Put away: {makings.length}</summary>
      <ul class="rows">
        {makings.map((m) => (
          <li class="row" key={m.id}>
            <p>
              <strong>{m.title}</strong>
              <span class="soft">{recap(m, new Date()).stopped}</span>
              <Labels labels={m.labels} />
            </p>
            <span class="ways">
              <button type="button" class="word" aria-label={`Bring back ${m.title}`} onClick={() => void deed(() => api.bringBack(m.id))}>
                Bring back
              </button>
              <button type="button" class="word soft" aria-label={`Take ${m.title} off the shelf`} onClick={() => void takeOff(m)}>
                Take off
              </button>
            </span>
          </li>
        ))}
      </ul>
    </details>
  );
}
