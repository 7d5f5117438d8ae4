const SAMPLES = 48_000; // 6 s at 8 kHz: shorter sounds get no buttons in some browsers
/** RIFF, WAVE, PCM: one channel, 8000 samples a second, 8 bits; 48,000 of them. Numbers are little-endian. */
const HEAD =
  "RIFF\xa4\xbb\0\0WAVEfmt \x10\0\0\0\x01\0\x01\0\x40\x1f\0\0\x40\x1f\0\0\x01\0\x08\0data\x80\xbb\0\0";

/** Six seconds of hardly anything, as a WAV file. */
export function quietSound(): Blob {
  const samples = new Uint8Array(SAMPLES).map((_, i) => 128 + Number(i % 800 === 0));
  return new Blob([Uint8Array.from(HEAD, (c) => c.charCodeAt(0)), samples], { type: "audio/wav" });
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
