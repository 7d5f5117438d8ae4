import "./look/tokens.css";
import "./look/type.css";
import "./look/ground.css";
import "./look/goods.css";
import { effect, signal } from "@preact/signals";
import { type ComponentType, render } from "preact";
import { device } from "./follow/device";
import { keepLight } from "./maker";
import { Notices } from "./Notices";
import { late } from "./pages/bench/late";
import { Read } from "./pages/read";
import { Shelf } from "./pages/shelf";
import { prepare } from "./pages/shelf/gather";
import { follow, route } from "./route";
import { keepPage, lookForNewer } from "./worker/page";

const bench = signal<ComponentType<{ id: number }> | null>(null);

const size = signal<ComponentType<{ id: string; making: number | null }> | null>(null);

const Paper = late(() => import("./pages/paper").then((room) => room.PaperPage));
const Gather = late(() => import("./pages/gather").then((room) => room.GatherPage));
const Cards = late(() => import("./pages/cards").then((room) => room.CardsPage));

const Record = late(() => import("./pages/record").then((room) => room.RecordPage));

function Room() {
  const at = route.value;
  if (at.page === "shelf") return <Shelf />;
  if (at.page === "read") return <Read key={at.id ?? ""} id={at.id} />;
  if (at.page === "size") {
    const Size = size.value;
    if (Size) return <Size key={at.id} id={at.id} making={at.making} />;
    void import("./pages/size").then((room) => {
      size.value = room.SizePage;
    });
    return null;
  }
  if (at.page === "record") return <Record key={at.id} id={at.id} />;
  if (at.page === "paper") return <Paper key={`${at.id}/${at.making}`} id={at.id} making={at.making} />;
  if (at.page === "gather") return <Gather key={`${at.id}/${at.making}`} id={at.id} making={at.making} />;
  if (at.page === "cards") return <Cards id={at.id} />;
  const Bench = bench.value;
  if (Bench) return <Bench key={at.id} id={at.id} />;
  void import("./pages/bench").then((room) => {
    bench.value = room.Bench;
  });
  return null;
}

const root = document.getElementById("page");
if (root) {
  keepLight();
  follow();
  // Moves that waited since the last visit go out whichever page comes first.
  void device().then(({ link }) =>
    effect(() => {
      // Who answers again may have become another in the meantime.
      if (link.meetings.value > 1) lookForNewer();
    }),
  );
  // After the first paint: keeping the page must not hold it up.
  addEventListener("load", () => {
    void keepPage();
    if (route.value.page !== "shelf") void prepare();
  });
  render(
    <>
      <Room />
      <Notices />
    </>,
    root,
  );
}
