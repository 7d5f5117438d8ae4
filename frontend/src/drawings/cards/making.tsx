import { Cloth, type Frame, Needle, type Point, Thread, Vee, Way, x, Yarn } from "./kit";

/** A stuffed piece from the side: outline, and a few of its stitches. */
const Ball = ({ d = "M120 20C176 20 206 54 206 88C206 126 168 146 120 146C72 146 34 126 34 88C34 54 64 20 120 20Z" }: { d?: string }) => (
  <>
    <path class="body" d={d} />
    <path class="cloth" d="M70 96l6 11l6 -11M92 106l6 11l6 -11M150 100l6 11l6 -11M170 84l6 11l6 -11M64 68l6 11l6 -11M160 56l6 11l6 -11" />
  </>
);

/** Loose fibres. */
const WISPS = "M76 84c10 -14 24 10 34 -6s20 14 32 0s18 12 26 2M70 104c14 -12 22 10 36 -2s22 12 34 0s20 10 30 -2M86 122c12 -10 22 8 32 -2s20 10 34 0M82 66c10 -10 22 8 32 -2s24 10 40 -2";

export const stuffing: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        <path class="body" d="M42 48C34 104 66 148 120 148C174 148 206 104 198 48" />
        <path class="rim" d="M42 48C60 60 180 60 198 48C180 36 60 36 42 48Z" />
        <path class="wisps" d={WISPS} />
        <Way on={[[108, 30], [86, 74], [66, 112]]} />
        <Way on={[[132, 30], [154, 74], [174, 112]]} />
      </>
    ),
  },
  {
    steps: [2, 3, 4],
    draw: () => (
      <>
        <Ball d="M120 36C132 36 150 22 168 34C192 48 206 64 206 92C206 128 168 148 120 148C72 148 34 128 34 92C34 62 62 26 84 30C100 32 108 36 120 36Z" />
        <path class="thumb" d="M96 -4C98 14 104 36 120 36C136 36 142 14 144 -4" />
        <path class="nail" d="M110 16C110 6 130 6 130 16" />
        <Way on={[[120, 84], [120, 66], [120, 48]]} />
      </>
    ),
  },
];

const C: Point = [120, 82];
const on = (angle: number, r: number): Point => [C[0] + r * Math.cos((angle * Math.PI) / 180), C[1] - r * Math.sin((angle * Math.PI) / 180)];
const SIX = [0, 60, 120, 180, 240, 300].map((a) => a + 30);

/** A stitch of the last round, seen from outside: its near strand is the outer one. */
const Top = ({ angle, picked }: { angle: number; picked: boolean }) => (
  <>
    <Yarn on={[on(angle - 26, 36), on(angle, 29), on(angle + 24, 31)]} tone="ground" thick={6} />
    <Yarn on={[on(angle - 26, 38), on(angle, 47), on(angle + 24, 45)]} tone={picked ? "hand" : "ground"} thick={6} />
  </>
);

export const closing: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        <circle class="body" cx={C[0]} cy={C[1]} r={74} />
        <circle class="inside" cx={C[0]} cy={C[1]} r={28} />
        {SIX.map((angle, k) => (
          <Top angle={angle} picked={k < 4} />
        ))}
        <Thread on={[[196, 140], on(-30, 58), on(30, 36), on(60, 48), on(90, 36), on(120, 48), on(150, 36), on(180, 46), on(210, 36)]} />
        <Needle at={on(236, 34)} turn={200} />
      </>
    ),
  },
  {
    steps: [2, 3],
    draw: () => (
      <>
        <circle class="body" cx={C[0]} cy={C[1]} r={74} />
        {SIX.map((angle) => (
          <Yarn on={[on(angle - 22, 30), on(angle - 8, 8), on(angle + 8, 8), on(angle + 22, 30)]} tone="ground" thick={6} />
        ))}
        <Thread on={[C, on(-10, 40)]} hidden />
        <Thread on={[on(-10, 40), on(-8, 78), on(-14, 112)]} />
        <Way on={[on(-26, 66), on(-24, 88), on(-22, 110)]} />
      </>
    ),
  },
];

export const shaping: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        <Ball />
        <Thread on="M114 22V144" hidden />
        <Thread on="M126 144V22" hidden />
        <Thread on={[[114, 22], [96, 8], [70, 4]]} />
        <Thread on={[[114, 144], [120, 152], [126, 144]]} />
        <Needle at={[126, 6]} turn={90} long={60} />
      </>
    ),
  },
  {
    steps: [2, 3],
    draw: () => (
      <>
        <Ball d="M120 48C134 22 190 22 204 72C212 120 168 148 132 144C126 138 114 138 108 144C72 148 28 120 36 72C50 22 106 22 120 48Z" />
        <Thread on="M117 50V140M123 50V140" hidden />
        <Thread on={[[120, 48], [128, 28], [150, 8]]} />
        <Way on={[[132, 44], [140, 28], [156, 18]]} />
      </>
    ),
  },
];

export const endsStuffed: readonly Frame[] = [
  {
    steps: [0, 1],
    draw: () => (
      <>
        <Ball />
        <Thread on={[[60, 60], [80, 40], [76, 20]]} />
        <Thread on={[[60, 60], [100, 84], [150, 98]]} hidden />
        <Needle at={[218, 116]} turn={195} long={70} />
      </>
    ),
  },
  {
    steps: [2, 3],
    draw: () => (
      <>
        <Ball />
        <Thread on={[[60, 60], [100, 84], [172, 104]]} hidden />
        <Thread on={[[172, 104], [140, 80], [126, 44]]} hidden />
        <Thread on={[[126, 44], [108, 84], [92, 120]]} hidden />
        <Thread on={[[92, 120], [84, 134], [78, 142]]} />
        {([[172, 104], [126, 44], [92, 120]] as const).map(([cx, cy]) => (
          <circle class="hole" cx={cx} cy={cy} r={4.5} />
        ))}
        <path class="snip" d="M64 156L92 124M58 136L98 134" />
      </>
    ),
  },
];

export const endsFlat: readonly Frame[] = [
  {
    steps: [0, 1, 2, 3],
    draw: () => (
      <>
        <Cloth y={4} rows={8} />
        <Thread on="M196 150C206 128 204 92 190 84M190 84H178M166 84H150M138 84H122M110 84H94M82 84H62C50 84 50 98 64 98H82M94 98H110M122 98H138M150 98H166M166 98C186 98 186 112 166 112H150M138 112H122M110 112H94" />
        <Needle at={[38, 112]} long={60} />
        <Way on={[[150, 66], [110, 62], [70, 66]]} />
      </>
    ),
  },
];

export const sewingOn: readonly Frame[] = [
  {
    steps: [0, 1, 2],
    draw: () => (
      <>
        <Cloth y={62} rows={5} />
        <path class="part" d="M36 58C40 22 80 4 120 4C160 4 200 22 204 58Z" />
        {[2, 3, 4, 5, 6].map((i) => (
          <Vee at={[x(i) + 18, 58]} tone="hand" />
        ))}
        <path class="pin" d="M60 20L52 92M56 12a6 6 0 1 0 8 6" />
        <path class="pin" d="M178 20L188 92M176 12a6 6 0 1 0 8 6" />
        <Needle at={[92, 86]} turn={-8} />
      </>
    ),
  },
  {
    steps: [3, 4],
    draw: () => (
      <>
        <Cloth y={62} rows={5} />
        <path class="part" d="M36 58C40 22 80 4 120 4C160 4 200 22 204 58Z" />
        {[2, 3, 4, 5, 6].map((i) => (
          <Vee at={[x(i) + 18, 58]} tone="hand" />
        ))}
        {[2, 3, 4].map((i) => (
          <>
            <Thread on={`M${x(i) + 14} 58V80`} />
            <Thread on={`M${x(i) + 14} 80H${x(i) - 10}`} hidden />
          </>
        ))}
        <Thread on={[[x(5) + 18, 80], [x(5) + 12, 56], [x(5) + 4, 34]]} />
        <Needle at={[x(5) + 6, 40]} turn={262} long={60} />
        <Way on={[[150, 106], [118, 110], [86, 106]]} />
      </>
    ),
  },
];
