// Dials, and the answer that moves while they do.
import { $, all, dialsOf, later, save, settings, work } from "./base.js";
import { ask, asked } from "./talk.js";
import { onView } from "./views.js";

// Problems are told at their dials, and at the one of several values that they are about.
function dialProblems(list) {
  for (const dial of all(".dial")) {
    const path = dial.dataset.path;
    const own = list.filter((p) => (p.path === path || p.path.startsWith(path + ".")) && !p.warning);
    const at = dial.querySelector(".problem");
    at.textContent = own.map((p) => p.words).join("\n");
    at.hidden = !own.length;
    dial.querySelector(".value").setAttribute("aria-invalid", String(own.length > 0));
    for (const part of all(".part", dial)) {
      const bad = own.some((p) => p.place === part.dataset.place || p.place.startsWith(part.dataset.place + "["));
      part.setAttribute("aria-invalid", String(bad));
    }
  }
}
// stale says that what is shown is not of the dials: it is asked anew when it is seen.
let stale = false;
export const whatif = later(150, () => {
  stale = $("whatif").hidden;
  if (stale) return;
  dialProblems([]);
  ask("whatif", "ask", { text: work.text, dials: settings(), question: "when" }, { problems: dialProblems, stopped: () => { stale = true; } });
});
onView("whatif", () => { if (stale) whatif(); });

let drawing = 0;
export async function drawDials() {
  const own = ++drawing;
  const { html, paths } = await asked("dials", { text: work.text, dials: settings(), paths: work.paths });
  if (own !== drawing) return; // a later call draws
  work.paths = paths;
  const open = all("details[open]", $("dials")).map((d) => d.closest(".dial").dataset.path);
  $("dials").innerHTML = html;
  for (const dial of all(".dial")) {
    const value = work.dials[dial.dataset.path];
    if (value !== undefined) { dial.querySelector(".value").value = value; follow(dial); }
    if (open.includes(dial.dataset.path)) all("details", dial).forEach((d) => { d.open = true; });
  }
  save();
}
// follow moves the slider with the field, where both are in one unit.
function follow(dial) {
  const value = dial.querySelector(".value"), range = dial.querySelector("input[type=range]");
  dial.classList.toggle("turned", value.value !== dial.dataset.value);
  const m = /^([+-]?[\d,]*\.?\d+(?:e[+-]?\d+)?)\s*(.*)$/i.exec(value.value.trim());
  if (range && m && m[2] === range.dataset.unit) range.value = m[1].replaceAll(",", "");
}
function turn(dial) {
  const path = dial.dataset.path, value = dial.querySelector(".value").value.trim();
  if (value === dial.dataset.value) delete work.dials[path];
  else work.dials[path] = value;
  follow(dial);
  save();
  $("whatif-state").textContent = "Working …";
  $("whatif-answer").setAttribute("aria-busy", "true");
  whatif();
}
// together writes the values of a dial that has several as the one that is typed for it.
function together(dial) {
  const parts = dial.querySelector(".parts").dataset;
  const values = all(".part", dial).filter((p) => p.value.trim()).map((p) => {
    const value = p.dataset.wrapped ? "[" + p.value.trim() + "]" : p.value.trim();
    return p.dataset.key ? p.dataset.key + ": " + value : value;
  });
  dial.querySelector(".value").value = parts.open + values.join(", ") + parts.close;
}
// times makes the number that a value begins with so many times as great, to four figures.
const times = (value, factor) => value.replace(/^[+-]?[\d,]*\.?\d+(?:e[+-]?\d+)?/i, (n) => String(Number((Number(n.replaceAll(",", "")) * factor).toPrecision(4))));
$("dials").addEventListener("input", (e) => {
  const dial = e.target.closest(".dial");
  if (e.target.type === "range") {
    const unit = e.target.dataset.unit;
    dial.querySelector(".value").value = Number(e.target.value).toFixed(e.target.dataset.decimals) + (unit ? " " + unit : "");
  } else if (e.target.matches(".factor")) {
    const factor = Number(e.target.value);
    if (!(factor >= 0) || !e.target.value.trim()) return;
    for (const p of all(".part", dial)) p.value = factor === 1 ? p.dataset.value : times(p.dataset.value, factor);
    together(dial);
  } else if (e.target.matches(".part")) together(dial);
  turn(dial);
});
// What is typed for several values at once is shown in each of them once it is typed.
$("dials").addEventListener("change", async (e) => {
  if (!e.target.matches(".value") || !e.target.closest(".dial").querySelector(".parts")) return;
  const path = e.target.closest(".dial").dataset.path, at = document.activeElement?.id;
  await drawDials();
  ($(at) || all(".dial").find((d) => d.dataset.path === path)?.querySelector(".value"))?.focus();
});
$("dials").addEventListener("submit", (e) => e.preventDefault());
$("dials").addEventListener("click", async (e) => {
  if (!e.target.matches(".away")) return;
  const path = e.target.closest(".dial").dataset.path, turned = path in work.dials;
  work.paths = work.paths.filter((p) => p !== path);
  delete work.dials[path];
  await drawDials();
  if (turned) whatif();
});
// turnAll turns the dials as they are in a list, and shows those.
export async function turnAll(list) {
  work.dials = dialsOf(list);
  for (const path of Object.keys(work.dials)) if (!work.paths.includes(path)) work.paths.push(path);
  await drawDials();
  whatif();
}
$("reset").addEventListener("click", () => turnAll([]));
$("rank").addEventListener("click", () => ask("whatif", "rank", { text: work.text, dials: settings(), paths: work.paths }, {
  ranked: async (r) => {
    work.paths = r.paths;
    await drawDials();
    $("ranked").textContent = r.moving ? "In the order in which loamcast drivers has them." : "Nothing that is uncertain moves the order more than chance does.";
    $("ranked").hidden = false;
  },
  after: whatif,
  stopped: () => { stale = true; },
}));
const search = later(150, async () => {
  const words = $("words").value, html = words.trim() ? (await asked("search", { text: work.text, words })).html : "";
  if (words === $("words").value) $("found").innerHTML = html;
});
$("words").addEventListener("input", search);
$("searching").addEventListener("submit", (e) => { e.preventDefault(); search(); });
$("found").addEventListener("click", async (e) => {
  const path = e.target.closest(".add")?.dataset.path;
  if (!path) return;
  if (!work.paths.includes(path)) work.paths.push(path);
  $("words").value = "";
  $("found").replaceChildren();
  await drawDials();
  all(".dial").find((d) => d.dataset.path === path)?.querySelector(".value").focus();
});
