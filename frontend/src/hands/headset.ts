import { PACKET } from "./sound/packet";

const SECONDS = 6; // shorter sounds get no buttons in some browsers
const RATE = 8000;

/** Six seconds of hardly anything, as a WAV file (RIFF; 8 bits, one channel). */
export function quietSound(): Blob {
  const samples = new Uint8Array(SECONDS * RATE).map((_, i) => 128 + (i % PACKET === 0 ? 1 : 0));
  const head = new DataView(new ArrayBuffer(44));
  const text = (at: number, s: string) => [...s].forEach((c, i) => head.setUint8(at + i, c.charCodeAt(0)));
  text(0, "RIFF");
  head.setUint32(4, 36 + samples.length, true);
  text(8, "WAVEfmt ");
  head.setUint32(16, 16, true);
  head.setUint16(20, 1, true);
  head.setUint16(22, 1, true);
  head.setUint32(24, RATE, true);
  head.setUint32(28, RATE, true);
  head.setUint16(32, 1, true);
  head.setUint16(34, 8, true);
  text(36, "data");
  head.setUint32(40, samples.length, true);
  return new Blob([head, samples], { type: "audio/wav" });
}

/**
 * The buttons of a headset: the system gives them to a page only while it plays something, so a nearly silent sound
 * goes round. That stops music from elsewhere on many devices: hence only where the maker asks for it.
 */
export function headsetButtons(pressed: (what: "next" | "back" | "listen") => void): () => void {
  const session = globalThis.navigator?.mediaSession;
  if (!session) return () => undefined;
  const address = URL.createObjectURL(quietSound());
  const player = new Audio(address);
  player.loop = true;
  const play = () => void player.play().catch(() => undefined);
  play();
  const on: [MediaSessionAction, () => void][] = [
    ["nexttrack", () => pressed("next")],
    ["previoustrack", () => pressed("back")],
    ["play", () => (play(), pressed("listen"))],
    ["pause", () => (play(), pressed("listen"))],
  ];
  for (const [action, act] of on)
    try {
      session.setActionHandler(action, act);
    } catch {
      // A browser that does not know the button: the others still work.
    }
  session.metadata = new MediaMetadata({ title: "Hookside" });
  return () => {
    for (const [action] of on)
      try {
        session.setActionHandler(action, null);
      } catch {
        // as above
      }
    player.pause();
    URL.revokeObjectURL(address);
  };
}
