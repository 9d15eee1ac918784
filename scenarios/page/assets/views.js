// The views, of which one is seen; each may be told when it is.
import { $, all } from "./base.js";

const names = all("main > section").map((s) => s.id);
const shown = {};
export const onView = (name, f) => { shown[name] = f; };
export function view(name) {
  for (const v of names) $(v).hidden = v !== name;
  for (const b of all("nav button")) {
    if (b.dataset.view === name) b.setAttribute("aria-current", "page");
    else b.removeAttribute("aria-current");
  }
  shown[name]?.();
}
for (const b of all("nav button")) b.addEventListener("click", () => view(b.dataset.view));
