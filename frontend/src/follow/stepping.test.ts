import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Strand } from "../generated/pattern";
import { apply, begin, isRefusal, locate, type Order, replay, type RunIntent, status, suggest } from "./stepping";

// The vectors of following, replayed move by move. tests/follow/test_vectors.py does the same in Python.
const FOLDER = new URL("../../../tests/vectors/", import.meta.url);

interface Case {
  format: number;
  why: string;
  strands?: string[];
  laid?: Record<string, Strand>;
  runs: [string, string][];
  order?: Order;
  moves: ({ do: Omit<RunIntent, "run"> & { run?: string }; refusal?: string; spot?: object } & Record<string, unknown>)[];
}

const read = (path: string) => JSON.parse(readFileSync(new URL(path, FOLDER), "utf8"));

function told(strand: Strand, at: number): Record<string, unknown> {
  const spot = locate(strand, at);
  const stitches = { lead: spot.lead.map((group) => group.stitch), trail: spot.trail.map((group) => group.stitch) };
  return { ...spot, ...stitches, group: spot.group?.stitch ?? null, cue: spot.cue?.address ?? null };
}

const pick = (all: Record<string, unknown>, like: object) =>
  Object.fromEntries(Object.keys(like).map((key) => [key, key in all ? all[key] : "absent"]));

for (const folder of ["follow", "bad", "traces"]) {
  const names = readdirSync(new URL(`${folder}/`, FOLDER)).filter((name) => name.endsWith(".json"));

  test(`there are vectors in ${folder}`, () => expect(names).not.toHaveLength(0));

  test.each(names)(`${folder}/%s`, (name) => {
    const vector = read(`${folder}/${name}`) as Case;
    expect(vector.format).toBe(1);
    expect(vector.why).not.toBe("");
    const strands =
      vector.laid ?? Object.fromEntries((vector.strands ?? []).map((id) => [id, read(`strands/${id}.json`) as Strand]));
    const runs = vector.runs.map(([run]) => run);
    const start = begin(vector.runs, strands);
    let state = start;
    const rows: [number, RunIntent][] = [];
    vector.moves.forEach((move, index) => {
      const row = index + 1;
      const intent: RunIntent = { run: runs[0] as string, ...move.do };
      rows.push([row, intent]);
      const done = apply(state, strands, row, intent);
      let seen: Record<string, unknown> = {};
      if (isRefusal(done)) seen = { refusal: done.code };
      else {
        state = done.state;
        seen = { ...done.outcome };
        expect(state.head).toBe(row);
      }
      const run = Object.hasOwn(state.runs, intent.run) ? state.runs[intent.run] : undefined;
      if (run) {
        const strand = strands[run.strand] as Strand;
        seen = {
          ...seen,
          in_hand: state.in_hand,
          counts: run.counts,
          history: run.history.map((past) => past.row),
          status: status(state, intent.run, strand),
          suggest: suggest(vector.order ?? { kind: "one" }, runs, state, strands),
        };
        if (move.spot) seen["spot"] = pick(told(strand, run.at), move.spot);
      }
      const { do: _, ...expected } = move;
      expect(isRefusal(done), `move ${row}`).toBe("refusal" in move);
      expect(pick(seen, expected), `move ${row}`).toEqual(expected);
    });
    expect(replay(start, strands, rows)).toEqual(state);
  });
}
