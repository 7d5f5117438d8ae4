import { toShelf } from "../../route";

/** The making cannot be worked: put away, or damaged. `say`: the journal's own words, where it has any. */
export function Lost({ damaged, say }: { damaged: boolean; say: string }) {
  return (
    <main class="bench quiet-page">
      <h1>{damaged ? "This making cannot be gone on with" : "This making is not here any more"}</h1>
      <p>{damaged && say ? say : "It was put away, perhaps on another device. Your patterns are still on the shelf."}</p>
      <a class="answer" href={toShelf}>
        To the shelf
      </a>
    </main>
  );
}
