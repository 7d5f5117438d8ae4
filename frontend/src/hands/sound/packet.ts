/** Samples a second of all that leaves this page. */
export const RATE = 16_000;
/** Samples of one packet, and how long it lasts. */
export const PACKET = 800;
export const PACKET_MS = 50;

/** Loudness in dB below the loudest there is: 0 and less. */
export function loudness(pcm: Int16Array): number {
  let sum = 0;
  for (const sample of pcm) sum += sample * sample;
  return 10 * Math.log10(sum / pcm.length / (32768 * 32768) + 1e-10);
}
