// Sets of dials under a name, side by side.
import { $, all, said, save, settings, work } from "./base.js";
import { ask } from "./talk.js";
import { onView, view } from "./views.js";
import { turnAll } from "./whatif.js";
import { store } from "./file.js";

export function drawCases() {
  const list = $("case-list");
  list.replaceChildren();
  const row = (name, words, index) => {
    const p = document.createElement("p"), label = document.createElement("label"), box = document.createElement("input");
    p.className = "row";
    box.type = "checkbox";
    box.value = index;
    box.checked = true;
    label.append(box, " " + name);
    const about = document.createElement("small");
    about.textContent = words;
    p.append(label, about);
    if (index >= 0) {
      for (const [what, text] of [["turn", "Turn the dials so"], ["write", "Save as a file"], ["drop", "Forget"]]) {
        const b = document.createElement("button");
        Object.assign(b, { type: "button", textContent: text, value: index, name: what });
        b.setAttribute("aria-label", text + ": " + name);
        p.append(b);
      }
    }
    list.append(p);
  };
  row("The file", "as it is edited here", -1);
  work.cases.forEach((c, i) => row(c.name, settings(c.dials).map((d) => d.path + ": " + d.value).join("; ") || "no dial is turned", i));
  const b = document.createElement("button");
  b.textContent = "Compare those that are chosen";
  list.append(b);
}
onView("cases", drawCases);
$("keeping").addEventListener("submit", (e) => {
  e.preventDefault();
  const name = $("case-name").value.trim();
  if (!name) return;
  work.cases = work.cases.filter((c) => c.name !== name).concat({ name, dials: { ...work.dials } });
  $("case-name").value = "";
  $("whatif-state").textContent = "Kept: " + name;
  save();
  drawCases();
});
$("case-list").addEventListener("submit", (e) => {
  e.preventDefault();
  const cases = all("input:checked", $("case-list")).map((box) => {
    const c = work.cases[box.value];
    return c ? { name: c.name, dials: settings(c.dials) } : { name: "The file", dials: [] };
  });
  if (cases.length < 2 || cases.length > 4) {
    $("cases-problems").replaceChildren(...said([{ words: "Choose two to four." }]));
    return;
  }
  ask("cases", "compare", { text: work.text, cases });
});
$("case-list").addEventListener("click", async (e) => {
  const b = e.target.closest("button[name]"), c = b && work.cases[b.value];
  if (!c) return;
  if (b.name === "drop") {
    work.cases.splice(b.value, 1);
    save();
    drawCases();
  } else if (b.name === "turn") {
    await turnAll(settings(c.dials));
    view("whatif");
  } else {
    const name = c.name.replace(/[^\p{L}\p{N} ._-]+/gu, "-") + ".yaml";
    store({ text: work.text, dials: settings(c.dials), name }, "cases");
  }
});
