// The file: a form beside its text, saving, and the report.
import { $, all, later, said, save, setText, work } from "./base.js";
import { asked, send } from "./talk.js";
import { onView } from "./views.js";
import { drawDials, whatif } from "./whatif.js";

// What comes late is not drawn: of several calls the last draws.
let drawing = 0;
export const drawForm = async () => {
  const own = ++drawing;
  const { html, problems, sound } = await asked("form", { text: work.text });
  if (own !== drawing) return sound;
  const open = all("details[open]", $("form")).map((d) => d.dataset.section);
  if (html) $("form").innerHTML = html;
  for (const d of all("details", $("form"))) if (open.includes(d.dataset.section)) d.open = true;
  $("file-problems").replaceChildren(...said(problems || []));
  $("save").disabled = !sound;
  if (!sound) {
    $("whatif-problems").replaceChildren(...said(problems));
    $("whatif-state").textContent = "The file cannot be simulated as it is: mend it under The file.";
  }
  return sound;
};
onView("file", drawForm);
// redraw shows what a text makes of form, dials and answer.
export const redraw = async () => { if (await drawForm()) { await drawDials(); whatif(); } };
$("text").addEventListener("input", () => { work.text = $("text").value; save(); edited(); });
const edited = later(300, redraw);
$("form").addEventListener("submit", (e) => e.preventDefault());
$("form").addEventListener("change", async (e) => {
  const path = e.target.dataset.path;
  const { text, problems } = await asked("edit", { text: work.text, dials: [{ path, value: e.target.value }] });
  if (problems?.length) { $("file-problems").replaceChildren(...said(problems)); return; }
  setText(text);
  const at = document.activeElement?.dataset?.path;
  await redraw();
  if (at) all("input", $("form")).find((i) => i.dataset.path === at)?.focus();
});
$("form").addEventListener("click", (e) => {
  const line = Number(e.target.closest(".line")?.dataset.line);
  if (!line) return;
  const lines = work.text.split("\n"), from = lines.slice(0, line - 1).join("\n").length + (line > 1);
  $("text").focus();
  $("text").setSelectionRange(from, from + lines[line - 1].length);
  $("text").scrollTop = (line - 8) * parseFloat(getComputedStyle($("text")).lineHeight);
});
export async function store(body, view) {
  const state = $(view + "-state"), problems = $(view + "-problems");
  problems.replaceChildren();
  try {
    const got = await asked("save", body);
    if (got.problems) { problems.replaceChildren(...said(got.problems)); state.textContent = "Not saved."; }
    else if (got.changed) await onDisk(got, body, view);
    else {
      if (got.hash) { work.hash = got.hash; work.read = got.text; }
      state.textContent = "Saved: " + got.saved;
      save();
    }
  } catch (e) {
    if (e.status) problems.replaceChildren(...said([{ words: e.message }]));
    state.textContent = "Not saved.";
  }
}
// onDisk asks what to do where the file has changed on the disk.
async function onDisk(now, body, view) {
  const dialog = $("changed");
  all("button", dialog).find((b) => b.value === "read").hidden = now.gone;
  dialog.returnValue = "keep";
  const choice = new Promise((done) => dialog.addEventListener("close", () => done(dialog.returnValue), { once: true }));
  dialog.showModal();
  switch (await choice) {
    case "write": return store({ ...body, hash: now.hash }, view);
    case "read":
      work.hash = now.hash;
      work.read = now.text;
      work.dials = {};
      setText(now.text);
      await redraw();
      $("file-state").textContent = "Read anew.";
      return;
    default: $("file-state").textContent = "Not saved.";
  }
}
$("changed").addEventListener("click", (e) => { if (e.target.value) $("changed").close(e.target.value); });
$("save").addEventListener("click", () => store({ text: work.text, hash: work.hash }, "file"));
$("save-as").addEventListener("click", () => store({ text: work.text, name: $("save-name").value.trim() }, "file"));
$("reporting").addEventListener("submit", async (e) => {
  e.preventDefault();
  const kind = e.submitter.value, part = $("report-part").value;
  $("report-state").textContent = "Working …";
  try {
    const data = await (await send("report", { text: work.text, kind, only: part ? [part] : [] })).blob();
    const a = document.createElement("a");
    a.href = URL.createObjectURL(data);
    a.download = "report." + kind;
    a.click();
    setTimeout(() => URL.revokeObjectURL(a.href), 60000);
    $("report-state").textContent = "report." + kind + " is with your downloads.";
  } catch (e) { $("report-state").textContent = e.status ? e.message : ""; }
});
