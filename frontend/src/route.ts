import { signal } from "@preact/signals";

/** Where the page is: the part of the address after "#". */
export type Route = { page: "shelf" } | { page: "read"; id: string | null } | { page: "size"; id: string; making: number | null } | { page: "bench"; id: number } | { page: "record"; id: number } | { page: "cards"; id: string | null } | { page: "gather"; id: string; making: number | null } | { page: "paper"; id: string; making: number | null };

export function parse(hash: string): Route {
  const [page, id, more] = hash.replace(/^#?\/?/, "").split("/");
  if (page === "read" && id) {
    try {
      return { page, id: id === "new" ? null : decodeURIComponent(id) };
    } catch {
      return { page: "shelf" };
    }
  }
  if ((page === "gather" || page === "size" || page === "paper") && id) {
    try {
      return { page, id: decodeURIComponent(id), making: more && /^\d+$/.test(more) ? Number(more) : null };
    } catch {
      return { page: "shelf" };
    }
  }
  if (page === "cards") return { page, id: id || null };
  if (page === "record" && id && /^\d+$/.test(id)) return { page, id: Number(id) };
  if (page === "bench" && id && /^\d+$/.test(id)) return { page, id: Number(id) };
  return { page: "shelf" };
}

export const route = signal<Route>({ page: "shelf" });

export function follow(): void {
  const turn = () => {
    route.value = parse(location.hash);
  };
  addEventListener("hashchange", turn);
  turn();
}

export const toShelf = "#/";
export const toRead = (id: string | number | null) => `#/read/${id === null ? "new" : encodeURIComponent(id)}`;
const of = (page: string, id: string | number, making?: number | null) =>
  `#/${page}/${encodeURIComponent(id)}${making === undefined || making === null ? "" : `/${making}`}`;
/** How large a pattern becomes; `making`: of the list it was asked from, to go back to. */
export const toSize = (id: string | number, making?: number | null) => of("size", id, making);
/** A pattern on paper, or a making of it with its boxes ticked so far. */
export const toPaper = (id: string | number, making?: number | null) => of("paper", id, making);
/** What to have at hand for a pattern, or for a making of it. */
export const toGather = (id: string | number, making?: number | null) => of("gather", id, making);
export const toCards = (id: string | null) => (id === null ? "#/cards" : `#/cards/${id}`);
export const toRecord = (id: number) => `#/record/${id}`;
export const toBench = (id: number) => `#/bench/${id}`;

export function go(address: string): void {
  location.hash = address;
}
