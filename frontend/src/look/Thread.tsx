const STITCHES = Array.from({ length: 8 }, (_, i) => i * 12);

/** A chain growing on the hook, and the yarn running off to the ball. It means nothing and says nothing. */
export function Thread() {
  return (
    <svg class="thread" width="2400" height="44" viewBox="0 0 2400 44" aria-hidden="true" focusable="false">
      {STITCHES.map((x) => (
        <path key={x} class="strand" d={`M${x + 3} 13c8 0 13 4 16 10-3 6-8 10-16 10`} />
      ))}
      <path d="M112 23c10 14 30 16 56 13 60-7 90-24 150-18 66 7 92 21 168 18s108-20 184-16 110 22 190 18 130-24 214-18 120 22 200 16 140-20 220-14 130 18 220 12 160-18 240-12 200 16 300 8" />
      <path class="steel" d="M113 24c-5-6 3-12 9-8L232 3" />
    </svg>
  );
}
