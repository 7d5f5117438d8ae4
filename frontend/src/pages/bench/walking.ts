/** Walking an open sheet without touching it: by pedals, keys and words. */

const WAYS = "button:not(:disabled), a[href], summary, input:is([type=checkbox], [type=radio]):not(:disabled)";
const READ = 0.8; // so much of what is seen goes by at once: the last lines are seen again

const open = (): HTMLElement | null => document.querySelector("dialog.sheet[open]");

/**
 * Stands at it as a walker. Who came by Tab or touch presses with Space and Enter; a pedal that walked there sends the same
 * once more, and walks on: what presses is done.
 */
function stand(way: HTMLElement): void {
  const gone = new AbortController();
  const on = (event: KeyboardEvent): void => {
    if (event.key !== " " && event.key !== "Enter") return;
    event.preventDefault();
    event.stopPropagation();
    const { key, repeat } = event;
    if (event.type === "keydown") document.body.dispatchEvent(new KeyboardEvent("keydown", { key, repeat, bubbles: true }));
  };
  way.focus();
  way.addEventListener("keydown", on, { signal: gone.signal });
  way.addEventListener("keyup", on, { signal: gone.signal });
  way.addEventListener("blur", () => gone.abort(), { once: true });
}

/** All that can be pressed, in the order of reading; the word that puts the sheet away comes last. */
function ways(sheet: HTMLElement): HTMLElement[] {
  const [away, ...rest] = sheet.querySelectorAll<HTMLElement>(WAYS);
  return away ? [...rest, away] : rest;
}

/** On to what can be pressed next (`by` 1) or before (-1), round and round; what lies between is read first. */
export function onward(by: 1 | -1): boolean {
  const sheet = open();
  if (!sheet) return false;
  const all = ways(sheet);
  const at = all.findIndex((way) => way === document.activeElement);
  const to = all.at(at < 0 ? (by > 0 ? 0 : -1) : (at + by) % all.length);
  const seen = sheet.getBoundingClientRect();
  const box = to?.getBoundingClientRect();
  const beyond = by > 0 && (!box || box.bottom > seen.bottom) && sheet.scrollTop + sheet.clientHeight < sheet.scrollHeight - 1;
  // The word at the sheet's top stays in sight, however far one reads.
  const last = to === all.at(-1);
  if (beyond || (last && by > 0 && sheet.scrollTop + sheet.clientHeight < sheet.scrollHeight - 1)) {
    sheet.scrollBy({ top: sheet.clientHeight * READ });
    if (to && !last && to.getBoundingClientRect().bottom <= seen.bottom) stand(to);
  } else if (to) stand(to);
  return true;
}

/** What it stands at is pressed. False: at nothing. */
export function pressed(): boolean {
  const sheet = open();
  const way = sheet && ways(sheet).find((one) => one === document.activeElement);
  way?.click();
  return Boolean(way);
}
