import "./outline.css";
import { type Hoop, outline } from "./outline";

interface Props {
  profile: readonly Hoop[];
  straight: number;
  made: number;
  /** Of a disc whose increases stand above one another. */
  corners?: number;
  /** Worked flat: never a disc. */
  strip?: boolean;
  /** It goes on from other pieces: they are below it. */
  stands?: boolean;
  /** Said to who does not see it. */
  label: string;
}

/** A piece as it will look: what is worked filled, the rest outlined, a line with its needle eye where the hook is. */
export function OutlineDrawing({ profile, straight, made, label, corners = 0, strip = false, stands = false }: Props) {
  const found = outline(profile, straight, made, corners, strip, stands);
  const room = Math.max(found.width, found.height) * 0.08;
  const stroke = Math.max(found.width, found.height) / 90;
  const { hook } = found;
  return (
    <svg
      class="outline"
      role="img"
      aria-label={label}
      viewBox={`${-room} ${-room} ${found.width + 2 * room} ${found.height + 2 * room}`}
      style={{ "--stroke": stroke }}
    >
      <path class="whole" d={found.whole} />
      {found.worked && <path class="made" d={found.worked} />}
      {hook && found.view === "side" && (
        <>
          <line class="at" x1={found.width / 2 - hook.half - room / 2} x2={found.width / 2 + hook.half} y1={hook.y} y2={hook.y} />
          <circle class="eye" cx={found.width / 2 + hook.half} cy={hook.y} r={stroke * 2.2} />
        </>
      )}
      {hook && found.view === "above" && <circle class="eye" cx={found.width / 2 + hook.half} cy={hook.y} r={stroke * 2.2} />}
    </svg>
  );
}
