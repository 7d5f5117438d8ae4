/** What a sound of ours means. */
export type Chime = "heard" | "unsure" | "repeat" | "round" | "cue";

/** [pitch in Hz, beginning and length in seconds]. Distinct in number, in direction and in depth, not in loudness. */
const NOTES: Record<Chime, readonly (readonly [number, number, number])[]> = {
  heard: [[880, 0, 0.09]],
  unsure: [
    [415, 0, 0.14],
    [349, 0.15, 0.2],
  ],
  repeat: [
    [587, 0, 0.1],
    [784, 0.1, 0.16],
  ],
  round: [
    [523, 0, 0.12],
    [659, 0.12, 0.12],
    [988, 0.24, 0.3],
  ],
  cue: [
    [294, 0, 0.3],
    [294, 0.36, 0.45],
  ],
};
const SOFT = 0.09;

/** Where the device can tremble: the same, for a hand that holds it. Milliseconds on, off, on. */
const TREMBLES: Record<Chime, number[]> = { heard: [15], unsure: [25, 40, 25], repeat: [30], round: [40, 60, 40], cue: [140, 90, 140] };

export function chime(context: AudioContext | null, which: Chime): void {
  if (context && context.state === "running")
    for (const [pitch, from, length] of NOTES[which]) {
      const begin = context.currentTime + from;
      const tone = context.createOscillator();
      const loud = context.createGain();
      tone.frequency.value = pitch;
      loud.gain.setValueAtTime(0, begin);
      loud.gain.linearRampToValueAtTime(SOFT, begin + 0.012);
      loud.gain.exponentialRampToValueAtTime(0.0005, begin + length);
      tone.connect(loud).connect(context.destination);
      tone.start(begin);
      tone.stop(begin + length + 0.02);
    }
  // Refused where the maker has not touched the page yet.
  globalThis.navigator?.vibrate?.(TREMBLES[which]);
}
