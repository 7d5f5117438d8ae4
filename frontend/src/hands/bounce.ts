/**
 * A worn switch or a finger lifted by a hair closes twice within a few hundredths of a second; a hand that means it
 * needs about a tenth (common practice, no source). So the same contact counts again only after `gap` milliseconds.
 * Times come from the events themselves, so a busy page does not shrink the gap between two real taps.
 */
export function bounceGuard(gap: number): (contact: string, time: number) => boolean {
  const last = new Map<string, number>();
  return (contact, time) => {
    const before = last.get(contact);
    // No time at all between two is a clock that stands still, which can tell nothing.
    const bounced = before !== undefined && time > before && time - before < gap;
    // What bounced starts no new gap: fast taps would hold each other off for as long as they go on.
    if (!bounced) last.set(contact, time);
    return !bounced;
  };
}

export const TAP_GAP = 60;
export const KEY_GAP = 60;
