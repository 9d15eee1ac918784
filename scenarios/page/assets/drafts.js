// What is not saved is kept by the program, too, for another tab or the next start.
import { $, all, dialsOf, later, onSave, setText, settings, work } from "./base.js";
import { asked, post } from "./talk.js";
import { drawCases } from "./cases.js";
import { redraw } from "./file.js";

const draft = () => ({ text: work.text, hash: work.hash, dials: settings(), paths: work.paths, cases: work.cases.map((c) => ({ name: c.name, dials: settings(c.dials) })) });
// What is said of it is true of the last: waiting says that it is still to be sent.
let waiting = false;
const told = (kept) => { $("edited").textContent = "edited, not saved" + (kept ? "; kept for the next start" : ""); };
// One is sent after the other, so that the last is the one that is kept.
let sending = Promise.resolve();
const keepDraft = () => (sending = sending.then(async () => {
  waiting = false;
  try {
    const { kept } = await (await post("draft", draft())).json();
    if (!waiting) told(kept);
  } catch { /* who cannot be reached is told of by what is asked */ }
}));
const soon = later(700, keepDraft);
// begin keeps from now on what is edited.
export function begin() {
  onSave(() => { waiting = true; told(false); soon(); });
}
addEventListener("pagehide", () => { if (waiting) post("draft", draft(), { keepalive: true }).catch(() => { /* the tab keeps it */ }); });

// offer shows what was edited elsewhere, or before the program was started.
export function offer(html) { $("offers").innerHTML = html; }
$("offers").addEventListener("click", async (e) => {
  const b = e.target.closest("button[name]");
  if (!b) return;
  if (b.name === "take") {
    const d = await asked("take", { draft: b.value });
    work.hash = d.hash;
    work.dials = dialsOf(d.dials);
    work.paths = d.paths || [];
    work.cases = (d.cases || []).map((c) => ({ name: c.name, dials: dialsOf(c.dials) }));
    setText(d.text);
    await keepDraft(); // it is here before it is forgotten there
    drawCases();
    await redraw();
  }
  await asked("forget", { draft: b.value });
  b.closest(".offer").remove();
  (all("button", $("offers"))[0] || $("main")).focus();
});
