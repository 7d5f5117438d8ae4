import { BASE, Cloth, type Frame, Ground, Hook, HookIn, HookOver, Made, Mark, Near, Not, type OnHook, Stands, TALL, Vee, Way, x, Yarn } from "./kit";

/*
 * A row in the making: three stitches stand at the right, the fourth place is worked into. Feet of loops lie in the V of
 * the row below, the oldest loop hangs from the top of the last stitch.
 */
const HERE = 3;
const top = (tall: number) => [x(HERE - 1), BASE - tall] as const;

/** The hook goes in under both strands of the next stitch. */
const goesIn = (tall: number = TALL[1], bars = 0, turns = 0) => (
  <>
    <Ground bare={[HERE]} />
    <Made tall={tall} bars={bars} />
    <HookIn at={[x(HERE), BASE]} from={[top(tall)]} turns={turns} />
    <Vee at={[x(HERE), BASE]} tone="comes" />
  </>
);

/** Loops on the hook, the newest drawn up from the next stitch; the yarn comes through `yarn` of them. */
const drawnUp = (loops: readonly OnHook[], yarn: number, tall: number = TALL[1], bars = 0) => (
  <>
    <Ground />
    <Made tall={tall} bars={bars} />
    <HookOver y={Math.min(62, BASE - tall - 22)} loops={loops} yarn={yarn} />
  </>
);

const drawn: OnHook = { foot: [x(HERE), BASE - 2] };
const turned: OnHook = {};
const old = (tall: number): OnHook => ({ foot: [x(HERE - 1), BASE - tall], tone: "ground" });

/** It is made, and one loop is left. */
const made = (tall: number = TALL[1], bars = 0) => (
  <>
    <Ground />
    <Made tall={tall} bars={bars} />
    <Stands feet={[x(HERE)]} top={x(HERE)} tall={tall} bars={bars} tone="hand" />
    <HookOver y={Math.min(62, BASE - tall - 24)} loops={[{ foot: [x(HERE), BASE - tall] }]} tip={72} />
  </>
);

export const single: readonly Frame[] = [
  { steps: [0], draw: () => goesIn() },
  { steps: [1, 2], draw: () => drawnUp([drawn, old(TALL[1])], 2) },
  { steps: [3], draw: () => made() },
];

export const slipStitch: readonly Frame[] = [
  { steps: [0, 1], draw: () => goesIn() },
  {
    steps: [2, 3],
    draw: () => (
      <>
        <Ground bare={[HERE]} />
        <Made />
        <HookIn at={[x(HERE), BASE]} from={[top(TALL[1])]} />
        <Vee at={[x(HERE), BASE]} tone="comes" />
        <Yarn on={[[30, 40], [84, 74], [x(HERE) - 12, BASE - 22], [x(HERE) - 4, BASE - 34]]} tone="comes" thick={6} />
        <Way on={[[96, 98], [112, 138], [166, 152]]} />
      </>
    ),
  },
];

export const halfDouble: readonly Frame[] = [
  { steps: [0], draw: () => goesIn(TALL[2], 0, 1) },
  { steps: [1, 2], draw: () => drawnUp([drawn, turned, old(TALL[2])], 3, TALL[2]) },
  { steps: [3], draw: () => made(TALL[2]) },
];

export const double: readonly Frame[] = [
  { steps: [0], draw: () => goesIn(TALL[3], 1, 1) },
  { steps: [1, 2], draw: () => drawnUp([drawn, turned, old(TALL[3])], 2, TALL[3], 1) },
  { steps: [3], draw: () => drawnUp([drawn, old(TALL[3])], 2, TALL[3], 1) },
];

export const treble: readonly Frame[] = [
  { steps: [0], draw: () => goesIn(TALL[4], 2, 2) },
  { steps: [1, 2], draw: () => drawnUp([drawn, turned, turned, old(TALL[4])], 2, TALL[4], 2) },
  { steps: [3], draw: () => made(TALL[4], 2) },
];

export const extended: readonly Frame[] = [
  { steps: [0, 1], draw: () => drawnUp([drawn, old(TALL[2])], 1, TALL[2]) },
  {
    steps: [2],
    draw: () => (
      <>
        <Ground />
        <Made tall={TALL[2]} bars={1} />
        <Stands feet={[x(HERE)]} top={x(HERE)} tall={TALL[2]} tone="hand" />
        <Yarn on={`M${x(HERE) - 7} ${BASE - 8}q7 7 14 0`} tone="hand" thick={5} />
      </>
    ),
  },
];

export const foundation: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        <Vee at={[x(2), BASE]} />
        <Vee at={[x(3), BASE]} tone="hand" />
        <HookOver y={60} loops={[{ foot: [x(3), BASE - 2] }, { foot: [x(2), BASE], tone: "ground" }]} yarn={1} />
      </>
    ),
  },
  {
    steps: [2, 3],
    draw: () => (
      <>
        {[0, 1, 2].map((i) => (
          <>
            <Stands feet={[x(i)]} top={x(i)} />
            <Vee at={[x(i), BASE + 4]} />
          </>
        ))}
        <HookIn at={[x(2) - 6, BASE + 4]} from={[[x(2), BASE - 30]]} />
        <Vee at={[x(2), BASE + 4]} tone="hand" />
      </>
    ),
  },
];

export const standing: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        <Ground from={0} to={7} />
        <HookOver y={56} loops={[{ foot: [x(2) - 12, 82], tone: "comes" }]} tip={82} />
        <Yarn on={[[x(2) - 14, 80], [x(2) + 4, 92], [x(2) - 20, 94], [x(2) - 12, 80]]} tone="comes" thick={5.5} />
        <Yarn on={[[x(2) - 12, 84], [x(1), 96], [x(0), 92]]} tone="comes" thick={5.5} />
        <Way on={[[88, 76], [92, 92], [104, 104]]} />
      </>
    ),
  },
  {
    steps: [2, 3],
    draw: () => (
      <>
        <Ground />
        <Stands feet={[x(HERE)]} top={x(HERE)} tone="comes" />
        <Yarn on={[[x(HERE) + 12, BASE - 26], [x(2), 100], [x(1), 98]]} tone="comes" thick={5.5} />
        <HookOver y={58} loops={[{ foot: [x(HERE), BASE - 30], tone: "comes" }]} tip={72} />
      </>
    ),
  },
];

export const reverse: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        <Ground bare={[2]} />
        {[5, 6, 4].map((i) => (
          <Stands feet={[x(i)]} top={x(i) + 4} />
        ))}
        <HookIn at={[x(2), BASE]} from={[[x(4) + 8, BASE - 30]]} />
        <Vee at={[x(2), BASE]} tone="comes" />
        <Not at={[x(7), BASE - 20]} />
        <Way on={[[96, 38], [136, 28], [176, 40]]} />
      </>
    ),
  },
  {
    steps: [2, 3],
    draw: () => (
      <>
        <Ground />
        {[3, 4, 5, 6].map((i) => (
          <>
            <Stands feet={[x(i)]} top={x(i) + 4} tone={i === 3 ? "hand" : "ground"} />
            <Yarn on={`M${x(i) - 8} ${BASE - 26}q12 -16 26 2`} tone={i === 3 ? "hand" : "ground"} thick={5} />
          </>
        ))}
      </>
    ),
  },
];

export const spike: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        <Cloth y={70} rows={4} />
        {[0, 1, 2, 3, 4, 5, 6, 7].map((i) => (
          <Vee at={[x(i), 70]} />
        ))}
        <Stands feet={[x(0)]} top={x(0)} base={70} />
        <Stands feet={[x(1)]} top={x(1)} base={70} />
        <Way on={[[x(2), 36], [x(2) - 12, 80], [x(2), 122]]} />
        <circle class="hole" cx={x(2)} cy={124} r={7} />
      </>
    ),
  },
  {
    steps: [2, 3, 4],
    draw: () => (
      <>
        <Cloth y={70} rows={4} />
        {[0, 1, 2, 3, 4, 5, 6, 7].map((i) => (
          <Vee at={[x(i), 70]} />
        ))}
        <Stands feet={[x(0)]} top={x(0)} base={70} />
        <Stands feet={[x(1)]} top={x(1)} base={70} />
        <Stands feet={[x(2)]} top={x(2)} base={124} tall={84} tone="hand" />
        <Way on={[[x(2) - 18, 44], [x(3) - 2, 40], [x(3) - 4, 58]]} />
      </>
    ),
  },
];

export const surface: readonly Frame[] = [
  {
    steps: [0, 1, 2, 3],
    draw: () => (
      <>
        <Cloth y={20} rows={7} />
        {[1, 2, 3].map((i) => (
          <Vee at={[x(i), 84]} tone="hand" />
        ))}
        <Hook at={[x(4) - 14, 62]} turn={40} />
        <Yarn on={`M${x(3) - 12} 84C${x(4) + 4} 72 ${x(4) + 20} 66 ${x(4) + 22} 84C${x(4) + 18} 100 ${x(4) + 8} 96 ${x(3) - 12} 88`} thick={6} />
        <Way on={[[x(5) + 10, 100], [x(5) + 2, 84], [x(4) - 2, 72]]} />
      </>
    ),
  },
];

/** The next stitch seen large from above: the far strand and the near one. */
const strands = (only: "front" | "back") => (
  <Near to={[x(HERE), BASE - 4]}>
    <Ground bare={[HERE]} />
    <Made />
    {only === "back" && <Vee at={[x(HERE), BASE]} only="front" />}
    {only === "front" && <Vee at={[x(HERE), BASE]} only="back" />}
    <HookIn at={only === "back" ? [x(HERE), BASE - 6] : [x(HERE) + 4, BASE + 6]} from={[top(TALL[1])]} />
    <Vee at={[x(HERE), BASE]} tone="comes" only={only} />
  </Near>
);

export const loops: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <Near to={[x(HERE) - 12, BASE - 6]}>
        <Ground bare={[HERE, 4]} />
        <Vee at={[x(HERE), BASE]} only="back" tone="comes" />
        <Vee at={[x(HERE), BASE]} only="front" />
        <Vee at={[x(4), BASE]} only="back" />
        <Vee at={[x(4), BASE]} only="front" tone="hand" />
        <Way on={[[x(HERE) + 2, 66], [x(HERE) - 2, 84], [x(HERE) - 2, 100]]} />
        <Way on={[[x(4) - 26, 148], [x(4) - 18, 142], [x(4) - 8, 130]]} />
      </Near>
    ),
  },
  { steps: [2], draw: () => strands("back") },
  { steps: [3, 4], draw: () => strands("front") },
];

/** Posts of tall stitches, and the hook round one of them. */
const posts = (front: boolean) => {
  const tall = 66;
  const [a, b, c] = [x(2), x(3), x(4)];
  const post = (foot: number, tone: "ground" | "hand" = "ground") => <Stands feet={[foot]} top={foot} tall={tall} bars={1} tone={tone} base={140} />;
  return (
    <>
      {[x(1), x(5), x(6)].map((foot) => post(foot))}
      {front ? post(a) : post(b, "hand")}
      {front && post(c)}
      <Hook at={[x(4) + (front ? 2 : 8), 104]} turn={-6} />
      {front ? post(b, "hand") : [post(a), post(c)]}
    </>
  );
};

export const post: readonly Frame[] = [
  { steps: [0, 1], draw: () => posts(true) },
  { steps: [2, 3, 4], draw: () => posts(false) },
];

export const turn: readonly Frame[] = [
  {
    steps: [0],
    draw: () => (
      <>
        {([[1, "1", 1], [3, "2", 2], [5, "3", 3], [7, "4", 4]] as const).map(([i, chains, tall]) => (
          <>
            {Array.from({ length: Number(chains) }, (_, k) => (
              <Yarn on={`M${x(i) + 22} ${BASE - 2 - k * 17}l-6 -13m6 13l6 -13`} tone="hand" thick={5} />
            ))}
            <Stands feet={[x(i) - 4]} top={x(i) - 4} tall={TALL[tall]} bars={tall - 2 > 0 ? tall - 2 : 0} />
            <Mark at={[x(i) + 8, BASE + 28]}>{chains}</Mark>
          </>
        ))}
      </>
    ),
  },
  {
    steps: [1, 2, 3, 4],
    draw: () => (
      <>
        <Ground from={1} to={6} />
        <Made count={0} />
        {[1, 2, 3, 4, 5, 6].map((i) => (
          <Stands feet={[x(i)]} top={x(i)} tall={TALL[1]} />
        ))}
        <Yarn on={`M${x(6) - 20} ${BASE - 34}l-6 -14m6 14l6 -14`} tone="hand" thick={5} />
        <Way on={[[x(7) - 2, 60], [x(7) + 20, 30], [x(5), 30], [x(4) + 2, 48]]} />
      </>
    ),
  },
];
