import type { Chosen } from "../../follow/choices";
import type { Gathered, Item } from "../../generated/pattern";

/** "5 × Buoy, 5 × Rope loop" */
export const forWhat = ({ pieces }: Pick<Gathered, "pieces">): string =>
  pieces.map(({ copies, name }) => `${copies} × ${name || "the piece"}`).join(", ");

/** Whose number a line of the text's own list is for: it stays as printed, whatever is gathered for. */
export const asPrinted = ({ pieces }: Pick<Gathered, "pieces">): string =>
  pieces.some(({ copies, printed }) => copies !== printed) ? "The pattern, for as many as it prints" : "The pattern";

/** One thing for a voice. */
export const itemSaid = ({ name, amount }: Pick<Item, "name" | "amount">, ticked: boolean): string =>
  `${[name, amount].filter(Boolean).join(", ")}${ticked ? ": at hand" : ""}.`;

/** What she calls the colour of an item in this making, and in copies of it that are another; "" where she has not said. */
export function herColour({ id }: Pick<Item, "id">, chosen: Chosen, pieces: Gathered["pieces"]): string {
  const plain = (name: string) => name.toLowerCase().replace("colour", "color").replace(/[^a-z0-9]+/g, " ").trim();
  const called = (colours: Readonly<Record<string, string>> | undefined) => Object.entries(colours ?? {}).find(([name]) => id === `yarn:${plain(name)}`)?.[1] ?? "";
  const copies = Object.entries(chosen).flatMap(([name, colours]) => {
    const [, number, copy] = /^colours\/p(\d+)\.c(\d+)$/.exec(name) ?? [];
    const words = number ? called(colours as Record<string, string>) : "";
    return words ? [`${pieces.find((piece) => piece.number === Number(number))?.name || "copy"} ${copy}: ${words}`] : [];
  });
  return [called(chosen.colours), ...copies].filter(Boolean).join("; ");
}

/** What is not ticked yet, in one sentence. */
export function stillToFind(items: readonly Pick<Item, "id" | "name">[], ticked: readonly string[]): string {
  const left = items.filter(({ id }) => !ticked.includes(id)).map(({ name }) => name);
  if (left.length === 0) return items.length ? "All of it is at hand." : "";
  if (left.length === items.length) return `${items.length} ${items.length === 1 ? "thing" : "things"} to find.`;
  const last = left.pop();
  return `Still to find: ${left.length ? `${left.join("; ")}; and ` : ""}${last}.`;
}
