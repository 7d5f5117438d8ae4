import { PACKET, RATE } from "./packet";
import { resampler } from "./resample";

// What the scope of an audio worklet has; the browser types know the page only.
declare const sampleRate: number;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, made: new () => AudioWorkletProcessor): void;

/** The microphone as packets of 50 ms: 16 kHz, one channel, 16 bits. They are handed over, not copied. */
class Packets extends AudioWorkletProcessor {
  #resample = resampler(sampleRate, RATE);
  #packet = new Int16Array(PACKET);
  #filled = 0;

  process([channels]: Float32Array[][]): boolean {
    const channel = channels?.[0];
    if (channel) this.#resample(channel, (sample) => this.#add(sample));
    return true;
  }

  #add(sample: number): void {
    this.#packet[this.#filled++] = Math.max(-1, Math.min(1, sample)) * 32767;
    if (this.#filled < PACKET) return;
    this.port.postMessage(this.#packet.buffer, [this.#packet.buffer]);
    this.#packet = new Int16Array(PACKET);
    this.#filled = 0;
  }
}

registerProcessor("packets", Packets);
