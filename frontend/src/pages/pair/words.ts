/** What stands behind the "#" where the address was a picture's: 128 bits. Null where it is nothing of that kind. */
export function invitation(hash: string): string | null {
  const found = /^#([A-Za-z0-9_-]{22})$/.exec(hash);
  return found?.[1] ?? null;
}

/** What a person would call this device. `narrowest`: the shorter side of its screen, in CSS pixels. */
export function called(agent: string, narrowest: number, touch: boolean): string {
  if (/iPhone/.test(agent)) return "iPhone";
  // An iPad says that it is a Mac; no Mac has a touch screen.
  if (/iPad/.test(agent) || (/Macintosh/.test(agent) && touch)) return "iPad";
  if (/Android/.test(agent)) return narrowest < 600 ? "Android phone" : "Android tablet";
  if (/Windows/.test(agent)) return "Windows laptop";
  if (/Macintosh/.test(agent)) return "Mac";
  return "laptop";
}

/** The typed form as it is shown on the laptop: capitals, four and four. */
export function tidy(typed: string): string {
  const letters = typed.toUpperCase().replace(/[^A-Z0-9]/g, "").slice(0, 8);
  return letters.length > 4 ? `${letters.slice(0, 4)} ${letters.slice(4)}` : letters;
}
