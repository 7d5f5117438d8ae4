/**
 * From the sound card's rate to another, sample by sample: a sinc under a Blackman window, cut off below half the
 * lower rate, so that nothing above it folds back into the speech (Smith, "Digital Audio Resampling": bandlimited
 * interpolation). Browsers differ in whether they do this themselves; so the page always does.
 */
const ZEROS = 10;
const FINE = 256;

export function resampler(from: number, to: number): (input: ArrayLike<number>, out: (sample: number) => void) => void {
  const cut = Math.min(1, to / from) * 0.92;
  const half = ZEROS / cut;
  const table = Float32Array.from({ length: ZEROS * FINE + 2 }, (_, i) => {
    const x = i / FINE; // in zero crossings
    if (x >= ZEROS) return 0;
    const sinc = x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
    const window = 0.42 + 0.5 * Math.cos((Math.PI * x) / ZEROS) + 0.08 * Math.cos((2 * Math.PI * x) / ZEROS);
    return cut * sinc * window;
  });
  const kernel = (distance: number) => {
    const at = Math.abs(distance) * cut * FINE;
    const i = Math.floor(at);
    if (i >= ZEROS * FINE) return 0;
    const low = table[i] as number;
    return low + ((table[i + 1] as number) - low) * (at - i);
  };
  const step = from / to;
  const size = 2 * Math.ceil(half) + 2;
  const kept = new Float32Array(size);
  let heard = 0; // samples so far
  let next = half; // where the next sample that goes out lies among those that came in
  return (input, out) => {
    for (let i = 0; i < input.length; i += 1) {
      kept[heard % size] = input[i] as number;
      heard += 1;
      while (next + half < heard) {
        let sum = 0;
        for (let k = Math.ceil(next - half); k <= next + half; k += 1) sum += (kept[k % size] as number) * kernel(next - k);
        out(sum);
        next += step;
      }
    }
  };
}
