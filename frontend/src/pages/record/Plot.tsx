import type { ToldSitting } from "../../api";
import { duration, instant, stitches } from "./words";

const WIDE = 600;
const HIGH = 120;
const SHOWN = 20;

/** The last sittings as threads laid side by side: as high as stitches were made, as wide as they took. */
export function Plot({ sittings }: { sittings: readonly ToldSitting[] }) {
  const last = sittings.slice(-SHOWN).filter((one) => one.stitches > 0);
  if (last.length < 2) return null;
  const most = Math.max(...last.map((one) => one.stitches));
  const minutes = last.map((one) => Math.max(1, (one.ended - one.begun) / 60));
  const all = minutes.reduce((sum, one) => sum + one, 0);
  const gap = 8;
  const room = WIDE - gap * (last.length - 1);
  let x = 0;
  return (
    <figure class="plot">
      <svg viewBox={`0 0 ${WIDE} ${HIGH + 4}`} role="img" aria-label={`Your last ${last.length} sittings, by stitches made and time taken`}>
        {last.map((one, i) => {
          const wide = Math.max(4, (room * (minutes[i] ?? 1)) / all);
          const high = Math.max(2, (HIGH * one.stitches) / most);
          const at = x;
          x += wide + gap;
          return (
            <rect key={one.begun} x={at} y={HIGH - high + 2} width={wide} height={high}>
              <title>{`${instant(one.begun)}: ${stitches(one.stitches)} in ${duration((one.ended - one.begun) / 60)}`}</title>
            </rect>
          );
        })}
      </svg>
      <figcaption class="soft">As high as stitches were made, as wide as the sitting was long. The highest: {stitches(most)}.</figcaption>
    </figure>
  );
}
