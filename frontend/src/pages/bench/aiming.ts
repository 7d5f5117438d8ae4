import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Strand } from "../../generated/pattern";
import { courseName } from "./sentence";

/** Where she said that her hands are, while something on the way to it waits. `at`: the step at which it waits. */
export interface Aim {
  run: string;
  strand: string;
  to: number;
  at: number;
}

const NOWHERE = -2; // no step is the one behind it

export const aimed = signal<Aim | null>(null);

/**
 * What becomes of an aim with the hook at `at`. It stays while something waits, is gone on to as soon as that is
 * answered (`"go"`), and is given up by any other move: back, another jump, the place itself.
 */
export function following(aim: Aim, strand: Strand, at: number, waits: boolean): Aim | "go" | null {
  if (strand.id !== aim.strand || at < aim.at || at >= aim.to) return null;
  if (waits) return at === aim.at ? aim : { ...aim, at };
  const whispers = new Set(strand.cues.filter((cue) => cue.weight === "whisper").map((cue) => cue.step));
  let answered = aim.at + 1;
  while (whispers.has(answered) && answered < at) answered++; // an answer goes on past what is only said
  return at === answered ? "go" : null;
}

/** The course at whose end an aim lies: "round 11"; "" where it lies within one. */
export function aimName(aim: Aim | null, run: string, strand: Strand): string {
  const course = aim?.run === run && aim.strand === strand.id && strand.courses.find((c) => c.end === aim.to);
  return course ? courseName(course).toLowerCase() : "";
}

/** Goes on to where her hands are when what waited on the way has its answer. Without it rounds would be made twice. */
export function useAim(making: number, here: { run: string; strand: Strand; at: number } | null, waits: boolean, go: (to: number) => void): void {
  useEffect(() => () => void (aimed.value = null), [making]);
  useEffect(() => {
    const aim = aimed.peek();
    if (!aim || !here || here.run !== aim.run) return; // another piece was taken up meanwhile
    const now = following(aim, here.strand, here.at, waits);
    // On the way there something else may wait: then the aim stays with that, and nowhere else.
    aimed.value = now === "go" ? { ...aim, at: NOWHERE } : now;
    if (now === "go") go(aim.to);
  }, [here?.run, here?.strand.id, here?.at, waits]);
}
