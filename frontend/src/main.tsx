import "./look/tokens.css";
import "./look/type.css";
import "./look/ground.css";
import { signal } from "@preact/signals";
import { type ComponentType, render } from "preact";
import { follow, route } from "./route";

const bench = signal<ComponentType<{ id: number }> | null>(null);

function Page() {
  const at = route.value;
  if (at.page === "bench") {
    const Bench = bench.value;
    if (Bench) return <Bench key={at.id} id={at.id} />;
    void import("./pages/bench").then((room) => {
      bench.value = room.Bench;
    });
    return null;
  }
  return <main>Hookside</main>;
}

const root = document.getElementById("page");
if (root) {
  follow();
  render(<Page />, root);
}
