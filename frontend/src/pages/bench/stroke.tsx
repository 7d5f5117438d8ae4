/** A stroke of the finger, drawn. */
export function Stroke({ way }: { way: "left" | "up" | "right" }) {
  const turn = { left: 180, up: -90, right: 0 }[way];
  return (
    <svg class="stroke" viewBox="-12 -12 24 24" aria-hidden="true" focusable="false">
      <path d="M-9 1C-4 -2 3 2 9 0M4 -5L9 0L4 5" transform={`rotate(${turn})`} />
    </svg>
  );
}
