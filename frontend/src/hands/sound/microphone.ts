import worklet from "./packets.worklet.ts?worker&url";

/** Why nothing can be heard, and what to do: a sentence each. */
const TROUBLES = {
  insecure:
    "A browser lends its microphone only to a page on the same machine or over https, and this address is neither. Touch, keys and pedals work all the same.",
  refused: "The microphone was refused. Allow it for this page in the browser's settings, then start again. Touch and keys go on.",
  missing: "No microphone was found. Plug one in, then start again. Touch and keys go on.",
  taken: "The microphone could not be opened; perhaps something else uses it. Close that, then start again. Touch and keys go on.",
  unplugged: "The microphone is gone. Plug it in again, and listening goes on by itself. Touch and keys work meanwhile.",
  old: "This browser is too old to listen. Touch, keys and pedals work all the same.",
} as const;

export type Trouble = keyof typeof TROUBLES;
export const troubleSaid = (trouble: Trouble): string => TROUBLES[trouble];

/** What is to be told by a sentence. */
export class NoMicrophone extends Error {
  constructor(readonly trouble: Trouble) {
    super(troubleSaid(trouble));
  }
}

/** What went wrong, by the name that browsers give it (Media Capture and Streams, getUserMedia, 10.2.2). */
export function troubleOf(error: unknown): Trouble {
  const name = error instanceof Error ? error.name : "";
  if (name === "NotAllowedError" || name === "SecurityError") return "refused";
  if (name === "NotFoundError" || name === "OverconstrainedError") return "missing";
  return "taken";
}

// A phone lies between talk and rattle: all three help there.
const WANTED: MediaTrackConstraints = { channelCount: 1, echoCancellation: true, noiseSuppression: true, autoGainControl: true };

export interface Listener {
  packet(pcm: Int16Array): void;
  /** The device was unplugged, or the system took it back for good. */
  ended(): void;
  /** A call, or a switch on the microphone: silence until it is given back. */
  muted(on: boolean): void;
}

const loaded = new WeakSet<BaseAudioContext>();

/** Opens the microphone on a running audio context. Throws NoMicrophone. Returns the way to close it. */
export async function openMicrophone(context: AudioContext, listener: Listener): Promise<() => void> {
  if (!globalThis.isSecureContext) throw new NoMicrophone("insecure");
  if (!navigator.mediaDevices?.getUserMedia || !context.audioWorklet) throw new NoMicrophone("old");
  let stream: MediaStream;
  try {
    stream = await navigator.mediaDevices.getUserMedia({ audio: WANTED });
  } catch (error) {
    throw new NoMicrophone(troubleOf(error));
  }
  const [track] = stream.getAudioTracks();
  const stop = () => {
    for (const one of stream.getTracks()) one.stop();
  };
  try {
    if (!loaded.has(context)) await context.audioWorklet.addModule(worklet);
    loaded.add(context);
    if (!track || track.readyState !== "live") throw new NoMicrophone("unplugged");
    const source = context.createMediaStreamSource(stream);
    const node = new AudioWorkletNode(context, "packets", { numberOfOutputs: 0, channelCount: 1, channelCountMode: "explicit" });
    node.port.onmessage = (event: MessageEvent<ArrayBuffer>) => listener.packet(new Int16Array(event.data));
    source.connect(node);
    track.onended = () => listener.ended();
    track.onmute = () => listener.muted(true);
    track.onunmute = () => listener.muted(false);
    return () => {
      track.onended = track.onmute = track.onunmute = null;
      node.port.onmessage = null;
      source.disconnect();
      node.disconnect();
      stop();
    };
  } catch (error) {
    stop();
    throw error instanceof NoMicrophone ? error : new NoMicrophone("taken");
  }
}
