import { BASE, type Frame, Ground, Hook, HookIn, HookOver, Made, Mark, Near, Stands, TALL, Vee, Way, x, Yarn } from "./kit";

const HERE = 3;
const last = [x(HERE - 1), BASE - TALL[1]] as const;

export const twoInOne: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        <Ground bare={[HERE]} />
        <Made />
        <Stands feet={[x(HERE)]} top={x(HERE) + 4} tone="hand" />
        <HookIn at={[x(HERE) - 6, BASE]} from={[[x(HERE) + 2, BASE - TALL[1]]]} />
        <Vee at={[x(HERE), BASE]} tone="comes" />
      </>
    ),
  },
  {
    steps: [2, 3],
    draw: () => (
      <>
        <Ground />
        <Made />
        <Stands feet={[x(HERE)]} top={x(HERE) + 6} tone="hand" />
        <Stands feet={[x(HERE)]} top={x(HERE) - 22} tone="hand" />
        <Mark at={[x(HERE) + 8, 70]}>1</Mark>
        <Mark at={[x(HERE) - 20, 70]}>2</Mark>
      </>
    ),
  },
];

export const invisibleIncrease: readonly Frame[] = [
  {
    steps: [0],
    draw: () => (
      <Near to={[x(HERE), BASE - 6]}>
        <Ground bare={[HERE]} />
        <Made />
        <Vee at={[x(HERE), BASE]} only="back" />
        <HookIn at={[x(HERE) + 4, BASE + 6]} from={[last]} />
        <Vee at={[x(HERE), BASE]} only="front" tone="comes" />
      </Near>
    ),
  },
  {
    steps: [1, 2],
    draw: () => (
      <Near to={[x(HERE), BASE - 6]}>
        <Ground bare={[HERE]} />
        <Made />
        <Stands feet={[x(HERE)]} top={x(HERE) + 4} tone="hand" />
        <HookIn at={[x(HERE) - 6, BASE]} from={[[x(HERE) + 2, BASE - TALL[1]]]} />
        <Vee at={[x(HERE), BASE]} tone="comes" />
      </Near>
    ),
  },
];

export const decrease: readonly Frame[] = [
  {
    steps: [0],
    draw: () => (
      <>
        <Ground bare={[4]} />
        <Made />
        <HookIn at={[x(4), BASE]} from={[[x(HERE) + 4, BASE - 2], last]} />
        <Vee at={[x(4), BASE]} tone="comes" />
      </>
    ),
  },
  {
    steps: [1, 2],
    draw: () => (
      <>
        <Ground />
        <Made />
        <HookOver y={60} loops={[{ foot: [x(4), BASE - 2] }, { foot: [x(HERE), BASE - 2] }, { foot: last, tone: "ground" }]} yarn={3} tip={78} />
      </>
    ),
  },
  {
    steps: [3],
    draw: () => (
      <>
        <Ground />
        <Made />
        <Stands feet={[x(HERE), x(4)]} top={(x(HERE) + x(4)) / 2} tone="hand" />
      </>
    ),
  },
];

/** The hook under the near strands of two neighbours: both lie over its shaft, the far ones stay below. */
const twoFronts = (second: boolean) => (
  <Near to={[x(HERE) - 8, BASE]}>
    <Ground bare={[HERE, 4]} />
    <Made />
    <Vee at={[x(HERE), BASE]} only="back" />
    <Vee at={[x(4), BASE]} only="back" />
    <Yarn on={[[last[0] - 6, last[1]], [x(2) - 2, BASE - 6], [x(2) + 12, BASE + 14]]} thick={6} />
    <Hook at={[x(second ? 4 : HERE) - 20, BASE - 7]} turn={second ? 12 : 20} />
    <Vee at={[x(HERE), BASE + 2]} only="front" tone="comes" />
    <Vee at={[x(4), BASE + 2]} only="front" tone={second ? "comes" : "ground"} />
    <Yarn on={[[x(2) + 12, BASE + 15], [x(2) - 2, BASE + 18], [x(2) - 6, BASE], [last[0] - 12, last[1] + 4]]} thick={6} />
    {second ? (
      <>
        <Yarn on={[[x(7), 70], [x(5), 84], [x(4) - 20, BASE - 6], [x(4) - 12, BASE - 16]]} tone="comes" thick={6} />
        <Way on={[[x(4) - 8, 138], [x(4) + 18, 146], [x(HERE) + 14, 142]]} />
      </>
    ) : (
      <Way on={[[x(4) + 10, 88], [x(4) - 4, 92], [x(4) - 8, 106]]} />
    )}
  </Near>
);

export const invisibleDecrease: readonly Frame[] = [
  { steps: [0], draw: () => twoFronts(false) },
  { steps: [1, 2], draw: () => twoFronts(true) },
  {
    steps: [3],
    draw: () => (
      <>
        <Ground bare={[HERE, 4]} />
        <Vee at={[x(HERE), BASE]} only="back" />
        <Vee at={[x(4), BASE]} only="back" />
        <Made />
        <Stands feet={[(x(HERE) + x(4)) / 2]} top={(x(HERE) + x(4)) / 2} tone="hand" />
        <Vee at={[x(HERE) - 6, BASE + 3]} only="front" tone="comes" />
        <Vee at={[x(4) + 6, BASE + 3]} only="front" tone="comes" />
      </>
    ),
  },
];

export const tallDecrease: readonly Frame[] = [
  {
    steps: [0, 1, 2],
    draw: () => (
      <>
        <Ground />
        <Made tall={TALL[3]} bars={1} />
        <HookOver y={36} loops={[{ foot: [x(4), BASE - 2] }, { foot: [x(HERE), BASE - 2] }, { foot: [x(2), BASE - TALL[3]], tone: "ground" }]} yarn={3} tip={74} />
        <Yarn on={`M${x(4) - 2} ${BASE - 28}l14 -8`} thick={4.5} />
        <Yarn on={`M${x(HERE) - 6} ${BASE - 28}l14 -8`} thick={4.5} />
      </>
    ),
  },
  {
    steps: [3],
    draw: () => (
      <>
        <Ground />
        <Made tall={TALL[3]} bars={1} />
        <Stands feet={[x(HERE), x(4)]} top={(x(HERE) + x(4)) / 2} tall={TALL[3]} bars={1} tone="hand" />
      </>
    ),
  },
];

export const bobble: readonly Frame[] = [
  {
    steps: [0, 1, 2],
    draw: () => (
      <>
        <Ground />
        <Made tall={TALL[3]} bars={1} count={2} />
        <HookOver
          y={34}
          loops={[0, 1, 2].map((k) => ({ foot: [x(HERE) + 5 * (k - 1), BASE - 2] as const })).concat([{ foot: [x(1), BASE - TALL[3]] as const }])}
          yarn={4}
          tip={64}
        />
      </>
    ),
  },
  {
    steps: [3, 4],
    draw: () => (
      <>
        <Ground />
        <Made tall={TALL[1]} count={2} />
        {[-14, 14, -7, 7, 0].map((bend) => (
          <Yarn on={`M${x(HERE)} ${BASE}C${x(HERE) + bend * 2.2} ${BASE - 18} ${x(HERE) + bend * 2.2} ${BASE - 40} ${x(HERE)} ${BASE - 54}`} thick={5.5} />
        ))}
        <Vee at={[x(HERE), BASE - 58]} tone="hand" />
        <Stands feet={[x(5)]} top={x(5)} tall={TALL[1]} />
      </>
    ),
  },
];

export const popcorn: readonly Frame[] = [
  {
    steps: [0, 1, 2],
    draw: () => (
      <>
        <Ground />
        {[0, 1, 2, 3, 4].map((k) => (
          <Stands feet={[x(HERE)]} top={x(HERE) + 52 - 26 * k} tall={TALL[3]} bars={1} tone="hand" />
        ))}
        <Yarn on={[[x(HERE) - 60, BASE - 56], [x(HERE) - 84, BASE - 78], [x(HERE) - 98, BASE - 60], [x(HERE) - 64, BASE - 50]]} thick={6} />
        <Hook at={[x(HERE) + 40, 38]} turn={-16} />
        <Vee at={[x(HERE) + 52, BASE - TALL[3]]} tone="comes" only="front" />
      </>
    ),
  },
  {
    steps: [3, 4],
    draw: () => (
      <>
        <Ground />
        {[-30, 30, -18, 18, 0].map((bend) => (
          <Yarn on={`M${x(HERE)} ${BASE}C${x(HERE) + bend * 1.5} ${BASE - 14} ${x(HERE) + bend * 1.3} ${BASE - 50} ${x(HERE) + bend * 0.2} ${BASE - 56}`} thick={6.5} />
        ))}
        <Vee at={[x(HERE), BASE - 60]} tone="hand" />
      </>
    ),
  },
];

export const shell: readonly Frame[] = [
  {
    steps: [0],
    draw: () => (
      <>
        <Ground />
        {[0, 1, 2, 3, 4].map((k) => (
          <Stands feet={[x(HERE)]} top={x(HERE) + 60 - 30 * k} tall={TALL[3] - (k === 0 || k === 4 ? 14 : 0)} bars={1} tone="hand" />
        ))}
      </>
    ),
  },
  {
    steps: [1, 2],
    draw: () => (
      <>
        <Ground />
        {[1, 4].map((i) => (
          <>
            <Stands feet={[x(i)]} top={x(i) + 18} tall={TALL[3]} bars={1} tone={i === 4 ? "hand" : "ground"} />
            <Stands feet={[x(i)]} top={x(i) - 18} tall={TALL[3]} bars={1} tone={i === 4 ? "hand" : "ground"} />
          </>
        ))}
        <Way on={[[x(2) - 2, BASE - 20], [(x(2) + x(3)) / 2, BASE - 36], [x(3) + 2, BASE - 20]]} />
      </>
    ),
  },
];
