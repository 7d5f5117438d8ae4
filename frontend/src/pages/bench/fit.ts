/**
 * Sizes of the bench's words, solved so that everything stands on the screen at once.
 *
 * Atkinson Hyperlegible has capitals of 0.668 em. For reading a metre away the amount and stitch in hand want capitals
 * of 72 px on a phone, sentence and place 38 px. What must give way does so in this order: the drawing, then
 * sentence and place together, last of all the stitch in hand.
 */
export const CAP = 0.668;
export const HAND_CAP = 72;
export const FAR_CAP = 38;

/** Width of a word in em, at a weight. */
export type Measure = (word: string, bold: boolean) => number;

export interface Opened {
  head: string;
  tail: string;
  lead?: string;
  then?: string;
  hand: boolean;
}

export interface Ask {
  width: number;
  height: number;
  /** Spaces that no line may break are no-break spaces. */
  sentence: string;
  /** The opened repeat for every group that may be in hand during the course: the block is as tall as the tallest. */
  opened: readonly (readonly Opened[])[];
  /** The lines of the place; each wants to stand on a line of its own. */
  place: readonly string[];
  /** Height of everything that does not change size: bars, buttons, gaps. */
  fixed: number;
  /** Height of the drawing's part of the screen when the drawing is so tall: caption and words beside it included. */
  drawn: (ring: number) => number;
  /** The drawing's height: no less, no more. Both 0 where it takes no height here. */
  ring: readonly [least: number, most: number];
  /** 1 on a phone 390 px wide, larger on a tablet. */
  scale: number;
}

export interface Sizes {
  sentence: number;
  hand: number;
  place: number;
  ring: number;
  /** Height kept for the opened repeat, so that nothing below it moves while the round is worked. */
  block: number;
  fits: boolean;
}

export const SENTENCE_LINE = 1.26;
export const PLACE_LINE = 1.14;
export const HAND_LINE = 1.16;
/** Words beside the one in hand, against it. */
export const NEAR = 0.54;
/** Where the stitch goes ("in ring"), against the one in hand. */
export const TAIL = 0.36;
/** Room between the parts, against the one in hand. */
export const GAP = 0.2;
/** The least size at which a line of the place shrinks rather than wraps. */
const PLACE_HELD = 40;

/** Lines a text takes at `size` within `width`; a word wider than a line counts the lines it breaks into. */
export function lines(text: string, size: number, width: number, measure: Measure, bold = false): number {
  const space = measure(" ", bold) * size;
  let count = 1;
  let x = 0;
  for (const word of text.split(" ")) {
    const w = measure(word, bold) * size;
    if (x > 0 && x + space + w > width) {
      count++;
      x = 0;
    }
    if (w > width) {
      count += Math.ceil(w / width) - 1;
      x = w % width;
    } else x += (x > 0 ? space : 0) + w;
  }
  return count;
}

/** The size at which the words in hand stand: `wanted`, less where a single word would be wider than the line. */
export function handSize(text: string, wanted: number, width: number, measure: Measure): number {
  const whole = measure(text, true);
  if (whole * wanted <= width) return wanted;
  const longest = Math.max(...text.split(" ").map((w) => measure(w, true)));
  return Math.min(wanted, width / Math.max(longest, 0.1));
}

/** The size of a part that is not in hand: smaller where it would not fit on a line, as a whole inner repeat may not. */
export function nearSize(text: string, hand: number, width: number, measure: Measure): number {
  return Math.max(hand * TAIL * 0.62, Math.min(hand * NEAR, width / Math.max(0.1, measure(text, false))));
}

/** Room that "in next" takes behind a "2 dc" that is not in hand, where both fit on one line; else 0, and it stands apart. */
export function together(part: Pick<Opened, "head" | "tail" | "hand">, hand: number, width: number, measure: Measure): number {
  if (part.hand || !part.tail) return 0;
  const head = measure(part.head, false) * nearSize(part.head, hand, width, measure);
  const tail = (measure(part.tail, false) + measure(" ", false)) * hand * TAIL;
  return head + tail <= width ? tail : 0;
}

/** Height of one state of the opened repeat: its words flow in lines, the one in hand large. */
export function openedHeight(parts: readonly Opened[], hand: number, width: number, measure: Measure): number {
  let height = 0;
  let x = 0;
  let tallest = 0;
  const put = (text: string, size: number, bold: boolean, more = 0) => {
    const gap = hand * GAP;
    const w = measure(text, bold) * size + more;
    if (x > 0 && x + gap + w > width) {
      height += tallest * HAND_LINE;
      x = 0;
      tallest = 0;
    }
    if (w > width) {
      height += lines(text, size, width, measure, bold) * size * HAND_LINE;
      return;
    }
    x += (x > 0 ? gap : 0) + w;
    tallest = Math.max(tallest, size);
  };
  for (const part of parts) {
    if (part.lead) put(part.lead, hand * TAIL, false);
    if (part.hand) put(part.head, handSize(part.head, hand, width, measure), true);
    else put(part.head, nearSize(part.head, hand, width, measure), false, together(part, hand, width, measure));
    if (part.tail && (part.hand || together(part, hand, width, measure) === 0)) put(part.tail, hand * TAIL, false);
    if (part.then) put(part.then, hand * TAIL, false);
  }
  return height + tallest * HAND_LINE;
}

/** A title stays so much larger than its body: it is what is read from a metre away. */
const LEAD = 1.7;

/** Sizes for a title and what follows it, so that both stand within a height. */
export function fitTitle(
  title: string,
  body: string,
  most: { title: number; body: number },
  width: number,
  height: number,
  measure: Measure,
): { title: number; body: number } {
  const tall = (t: number, b: number) =>
    lines(title, t, width, measure, true) * t * 1.1 + (body ? lines(body, b, width, measure) * b * 1.3 + 16 : 0);
  let size = handSize(title, most.title, width, measure);
  let text = most.body;
  // The title gives way first, down to a size at which it still leads: what is to be done stands in the words below it.
  while (tall(size, text) > height && (size > 30 || text > 17)) {
    if (size > 30 && (size > text * LEAD || text <= 17 || !body)) size -= 2;
    else text -= 1;
  }
  return { title: size, body: text };
}

/** The size at which the place's lines stand: a little less than wanted, if each then keeps to one line. */
export function placeSize(place: readonly string[], wanted: number, width: number, measure: Measure): number {
  const widest = Math.max(0.1, ...place.map((line) => measure(line, false)));
  const whole = width / widest;
  return whole >= PLACE_HELD ? Math.min(wanted, whole) : wanted;
}

const between = (least: number, most: number, part: number) => least + (most - least) * part;

export function solve(ask: Ask, measure: Measure): Sizes {
  const most = { text: (FAR_CAP / CAP) * ask.scale + 0.2, hand: (HAND_CAP / CAP) * ask.scale + 0.5 };
  const least = { text: 17, place: 24, hand: 44 };

  // What must not be broken must fit on a line by itself.
  const widest = Math.max(0.1, ...ask.sentence.split(" ").map((chunk) => measure(chunk, false)));
  const block = (hand: number) => Math.max(0, ...ask.opened.map((o) => openedHeight(o, hand, ask.width, measure)));
  const sentenceHeight = (size: number) => lines(ask.sentence, size, ask.width, measure) * size * SENTENCE_LINE;
  const placeHeight = (size: number) =>
    ask.place.reduce((sum, line) => sum + lines(line, size, ask.width, measure), 0) * size * PLACE_LINE;
  type Tried = Omit<Sizes, "fits">;
  const fits = (s: Tried) =>
    ask.fixed + sentenceHeight(s.sentence) + s.block + placeHeight(s.place) + ask.drawn(s.ring) <= ask.height;

  const at = (ring: number, text: number, hand: number): Tried => {
    const size = between(least.hand, most.hand, hand);
    return {
      sentence: Math.min(between(least.text, most.text, text), ask.width / widest),
      place: placeSize(ask.place, between(least.place, most.text, text), ask.width, measure),
      hand: size,
      ring: between(ask.ring[0], ask.ring[1], ring),
      block: block(size),
    };
  };
  const first = (): Tried | null => {
    for (let ring = 10; ring >= 0; ring--) {
      const tried = at(ring / 10, 1, 1);
      if (fits(tried)) return tried;
    }
    for (let hand = 10; hand >= 0; hand--) {
      // The block is the costly part and the same for all sizes of text.
      const { block: same } = at(0, 0, hand / 10);
      for (let text = 40; text >= 0; text--) {
        const tried = { ...at(0, text / 40, 0), hand: between(least.hand, most.hand, hand / 10), block: same };
        if (fits(tried)) return tried;
      }
    }
    return null;
  };
  let found = first();
  if (found === null) return { ...at(0, 0, 0.5), fits: false };

  // Lines break in whole words, so room may be left over: the place takes some, the drawing the rest.
  const wanted = placeSize(ask.place, most.text, ask.width, measure);
  for (let size = wanted; size > found.place; size -= 1) {
    if (fits({ ...found, place: size })) {
      found = { ...found, place: size };
      break;
    }
  }
  for (let size = ask.ring[1]; size > found.ring; size -= 4) {
    if (fits({ ...found, ring: size })) {
      found = { ...found, ring: size };
      break;
    }
  }
  return { ...found, fits: true };
}
