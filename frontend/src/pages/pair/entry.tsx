import "../../look/tokens.css";
import "../../look/type.css";
import "../../look/ground.css";
import "../../look/goods.css";
import { render } from "preact";
import { Pair } from "./Pair";
import { invitation } from "./words";

const dark = matchMedia("(prefers-color-scheme: dark)");
const light = () => {
  document.documentElement.dataset.light = dark.matches ? "lamplight" : "daylight";
};
light();
dark.addEventListener("change", light);

const root = document.getElementById("page");
const link = invitation(location.hash);
// Out of the address bar and the history at once: it is a secret for as long as it is good for something.
if (location.hash) history.replaceState(null, "", location.pathname);

// A device that is paired already has nothing to do here. Its cookie stays at home when another site or an app sends
// it along, and is there for what the page itself asks.
fetch("/pair", { redirect: "manual", cache: "no-store" }).then(
  (answer) => {
    if (answer.type === "opaqueredirect") location.replace("/");
    else if (root) render(<Pair link={link} />, root);
  },
  () => root && render(<Pair link={link} />, root),
);
