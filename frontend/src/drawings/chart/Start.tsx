import { type Middle, OVAL } from "./middle";

/** What stands in the middle of a chart of rounds. */
export function Start({ middle }: { middle: Middle }) {
  switch (middle.kind) {
    case "ring":
      return <circle class="start" r={0.7} />;
    case "loop":
      return (
        <>
          <circle class="start" r={0.8} />
          <text>{middle.chains}</text>
        </>
      );
    case "chain":
      return <Ovals from={(-middle.chains * OVAL) / 2} many={middle.chains} />;
    case "edge":
      return <circle class="start edge" r={middle.radius} />;
    case "parts":
      return (
        <>
          {middle.parts.map(({ name, at, radius }, i) => (
            <g key={name}>
              {i > 0 && <Ovals from={at.x - radius - middle.chains * OVAL} many={middle.chains} />}
              <circle class="start" cx={at.x} cy={at.y} r={radius} />
              {name.split(" ").map((word, line, all) => (
                <text key={word} x={at.x} y={at.y + line - (all.length - 1) / 2}>
                  {word}
                </text>
              ))}
            </g>
          ))}
        </>
      );
  }
}

/** Chains in a row, from left to right. */
function Ovals({ from, many }: { from: number; many: number }) {
  return (
    <>
      {Array.from({ length: many }, (_, i) => (
        <ellipse key={i} class="start" cx={from + (i + 0.5) * OVAL} rx={OVAL / 2 - 0.06} ry={0.24} />
      ))}
    </>
  );
}

/** What the middle is, for who does not see it. */
export function middleSaid(middle: Middle): string {
  switch (middle.kind) {
    case "parts":
      return `Begun on ${[...middle.parts].sort((a, b) => a.nth - b.nth).map((p) => p.name).join(" and ")}${middle.chains ? `, ${middle.chains} ch between them` : ""}.`;
    case "edge":
      return "Begun on the edge of what lies below.";
    case "chain":
      return `Begun along a chain of ${middle.chains}.`;
    default:
      return "";
  }
}
