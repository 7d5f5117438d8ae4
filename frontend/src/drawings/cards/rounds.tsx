import { BASE, type Frame, Ground, Hook, HookOver, Made, Mark, Not, type Point, Stands, TALL, type Tone, Way, x, Yarn } from "./kit";

// -- round a ring, seen from outside: right-handed work runs anticlockwise ---------------------------------------

const C: Point = [120, 82];

/** A point on a circle round the middle; 0 points to the right, angles go anticlockwise, in degrees. */
const on = (angle: number, r: number, [cx, cy]: Point = C): Point => [cx + r * Math.cos((angle * Math.PI) / 180), cy - r * Math.sin((angle * Math.PI) / 180)];

const arc = (r: number, from: number, to: number): Point[] => {
  const steps = Math.max(2, Math.ceil(Math.abs(to - from) / 20));
  return Array.from({ length: steps + 1 }, (_, k) => on(from + ((to - from) * k) / steps, r));
};

/** A stitch that stands outwards, and its V lying round the edge. */
function Spoke({ angle, from, to, tone = "ground", wide = 15 }: { angle: number; from: number; to: number; tone?: Tone; wide?: number }) {
  const leg = (side: number): Point[] => [on(angle, from), on(angle + side * wide * 0.6, (from + to) / 2), on(angle + side * wide * 0.55, to)];
  const edge = (far: number): Point[] => [on(angle - wide, to + 7), on(angle, to + 7 + far), on(angle + wide * 0.9, to + 7 + far)];
  return (
    <>
      <Yarn on={leg(-1)} tone={tone} thick={5} />
      <Yarn on={leg(1)} tone={tone} thick={5} />
      <Yarn on={edge(-5)} tone={tone} thick={5} />
      <Yarn on={edge(5)} tone={tone} thick={5} />
    </>
  );
}

export const ring: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        <Yarn on={[[96, 156], [92, 132], ...arc(42, 235, 60)]} />
        <Yarn on={[...arc(42, 60, -70), [110, 122], [78, 122], [44, 108], [14, 96]]} />
        <Hook at={[62, 84]} turn={-4} />
        <Yarn on={arc(42, 150, 205)} />
        <Way on={[[60, 66], [74, 62], [96, 66]]} />
      </>
    ),
  },
  {
    steps: [2, 3],
    draw: () => (
      <>
        <Yarn on={arc(33, -50, 300)} tone="ground" thick={6} />
        <Yarn on={[...arc(24, 600, 270), [132, 130], [134, 160]]} tone="ground" thick={6} />
        {[15, 60, 105].map((angle, i) => (
          <Spoke angle={angle} from={14} to={56} tone={i === 2 ? "hand" : "ground"} />
        ))}
        <Hook at={on(150, 56)} turn={30} />
        <Yarn on={arc(33, 130, 205)} tone="comes" thick={6} />
        <Yarn on={arc(24, 130, 205)} tone="comes" thick={6} />
      </>
    ),
  },
  {
    steps: [4],
    draw: () => (
      <>
        <Yarn on={[[120, 84], [140, 124], [146, 150]]} tone="ground" thick={6} />
        {[30, 90, 150, 210, 270, 330].map((angle) => (
          <Spoke angle={angle} from={4} to={42} wide={24} />
        ))}
        <Way on={[[164, 116], [170, 132], [172, 150]]} />
      </>
    ),
  },
];

/** Chains one upon the other, from the first at the bottom: each a V that opens towards the next. */
export const Links = ({ at, tones = [] }: { at: readonly Point[]; tones?: readonly Tone[] }) => (
  <>
    {at.slice(0, -1).map((from, i) => {
      const to = at[i + 1] ?? from;
      const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
      const grain = (side: 1 | -1): Point[] => [
        from,
        [from[0] + dx * 0.5 - side * dy * 0.3, from[1] + dy * 0.5 + side * dx * 0.3],
        [to[0] + dx * 0.15 - side * dy * 0.24, to[1] + dy * 0.15 + side * dx * 0.24],
      ];
      return (
        <>
          <Yarn on={grain(1)} tone={tones[i] ?? "ground"} thick={6} />
          <Yarn on={grain(-1)} tone={tones[i] ?? "ground"} thick={6} />
        </>
      );
    })}
  </>
);

export const chain: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        <Links at={[[108, 158], [112, 136], [116, 114], [120, 92]]} />
        <HookOver y={56} loops={[{ foot: [122, 90] }]} yarn={1} tip={82} />
      </>
    ),
  },
  {
    steps: [2, 3],
    draw: () => (
      <>
        <Links at={[0, 1, 2, 3, 4, 5].map((k) => [212 - 28 * k, 112] as const)} />
        <HookOver y={60} loops={[{ foot: [68, 108] }]} tip={24} />
        {[1, 2, 3, 4, 5].map((k) => (
          <Mark at={[226 - 28 * k, 146]}>{k}</Mark>
        ))}
      </>
    ),
  },
];

export const chainStart: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        <circle class="knot" cx={126} cy={146} r={9} />
        <Links at={[[126, 140], [122, 112], [118, 86]]} tones={["comes", "ground"]} />
        <HookOver y={54} loops={[{ foot: [116, 84] }]} tip={76} />
        <Mark at={[152, 128]}>2</Mark>
        <Mark at={[148, 102]}>1</Mark>
        <Way on={[[62, 104], [84, 118], [108, 126]]} />
      </>
    ),
  },
  {
    steps: [2, 3],
    draw: () => (
      <>
        {[30, 90, 150, 210, 270, 330].map((angle, i) => (
          <Spoke angle={angle} from={8} to={44} wide={23} tone={i === 5 ? "hand" : "ground"} />
        ))}
        <circle class="hole" cx={C[0]} cy={C[1]} r={7} />
      </>
    ),
  },
];

export const chainSides: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        <Links at={[0, 1, 2, 3, 4, 5, 6].map((k) => [204 - 24 * k, 88] as const)} />
        {[0, 1, 2, 3, 4].map((k) => (
          <Stands feet={[192 - 24 * k]} top={192 - 24 * k} base={84} tone={k === 4 ? "hand" : "ground"} />
        ))}
        <Way on={[[86, 40], [40, 46], [30, 88], [46, 118]]} />
      </>
    ),
  },
  {
    steps: [2, 3, 4],
    draw: () => (
      <>
        {[0, 1, 2, 3, 4].map((k) => (
          <g transform={`rotate(180 ${204 - 24 * k - 12} 84)`}>
            <Stands feet={[192 - 24 * k]} top={192 - 24 * k} base={80} tone={k > 2 ? "hand" : "ground"} />
          </g>
        ))}
        <Links at={[0, 1, 2, 3, 4, 5].map((k) => [204 - 24 * k, 84] as const)} />
        {[0, 1, 2, 3, 4].map((k) => (
          <Stands feet={[192 - 24 * k]} top={192 - 24 * k} base={80} />
        ))}
        <Stands feet={[86]} top={66} base={82} tall={26} />
        <g transform="rotate(-90 84 84)">
          <Stands feet={[84]} top={84} base={84} tall={34} />
        </g>
        <Way on={[[150, 26], [60, 26], [24, 60], [24, 108], [60, 142], [140, 142]]} />
      </>
    ),
  },
];

export const picot: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        <Ground />
        <Made count={4} />
        <Links at={[[x(3) + 2, 82], [x(3) - 6, 68], [x(3) + 2, 54], [x(3), 41]]} tones={["comes", "hand", "hand"]} />
        <HookOver y={22} loops={[{ foot: [x(3) + 1, 44] }]} tip={x(3) - 36} />
        <Way on={[[x(3) - 40, 36], [x(3) - 46, 60], [x(3) - 16, 74]]} />
      </>
    ),
  },
  {
    steps: [2, 3],
    draw: () => (
      <>
        <Ground />
        <Made count={4} />
        <Links at={[[x(3) - 3, 82], [x(3) - 17, 66], [x(3) - 8, 47], [x(3) + 12, 48], [x(3) + 16, 66], [x(3) + 2, 82]]} tones={["hand", "hand", "hand", "hand", "hand"]} />
        <Stands feet={[x(4)]} top={x(4)} />
        <Stands feet={[x(5)]} top={x(5)} />
      </>
    ),
  },
];

export const secondRound: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        {[0, 1, 2, 3, 4, 5].map((k) => (
          <Spoke angle={-20 + 58 * k} from={6} to={40} wide={22} tone={k === 0 ? "comes" : "ground"} />
        ))}
        {[0, 1, 2, 3, 4, 5].map((k) => {
          const [mx, my] = on(-20 + 58 * k, 68);
          return <Mark at={[mx, my + 6]}>{6 - k}</Mark>;
        })}
        <Hook at={on(296, 46)} turn={24} long={120} />
      </>
    ),
  },
  {
    steps: [2, 3],
    draw: () => (
      <>
        {[0, 1, 2, 3, 4, 5].map((k) => (
          <Spoke angle={-20 + 58 * k} from={6} to={40} wide={22} tone={k === 0 ? "comes" : "ground"} />
        ))}
        <Not at={C} />
        <Way on={[on(300, 66), on(318, 74), on(336, 62)]} />
      </>
    ),
  },
];

/** A marker that opens and shuts, through the V of a stitch. */
const Pin = ({ at: [mx, my] }: { at: Point }) => <path class="pin" d={`M${mx + 2} ${my + 2}v-24c0 -14 20 -14 20 0v20c0 9 -13 9 -13 0v-18`} />;

export const marker: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        <Ground />
        <Stands feet={[x(3)]} top={x(3)} tone="hand" />
        <Pin at={[x(3), BASE - 32]} />
        <HookOver y={58} loops={[{ foot: [x(3) - 4, BASE - 30] }]} tip={30} />
        <Not at={[66, 34]} />
      </>
    ),
  },
  {
    steps: [2, 3],
    draw: () => (
      <>
        <Ground />
        <Made count={8} />
        <Pin at={[x(4), BASE - 32]} />
        {[0, 1, 2, 3].map((i) => (
          <Stands feet={[x(i)]} top={x(i)} base={BASE - 34} tall={26} tone={i === 3 ? "hand" : "ground"} />
        ))}
        <Way on={[[x(3) - 2, 38], [x(4) - 8, 34], [x(4) - 12, 66]]} />
      </>
    ),
  },
];

export const colour: readonly Frame[] = [
  {
    steps: [0, 1, 2],
    draw: () => (
      <>
        <Ground />
        <Made tone="hand" />
        <HookOver y={62} loops={[{ foot: [x(3), BASE - 2] }, { foot: [x(2), BASE - TALL[1]] }]} yarn={2} />
        <Yarn on={[[x(3) - 6, BASE + 2], [x(4), BASE + 22], [x(5), BASE + 34]]} thick={6} />
      </>
    ),
  },
  {
    steps: [3],
    draw: () => (
      <>
        <Ground />
        <Made count={4} tone="hand" />
        <Stands feet={[x(4)]} top={x(4)} tone="comes" />
        <Stands feet={[x(5)]} top={x(5)} tone="comes" />
        <HookOver y={58} loops={[{ foot: [x(5), BASE - 30], tone: "comes" }]} tip={20} />
      </>
    ),
  },
];

