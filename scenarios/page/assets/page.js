// The page of Loamcast: sends what is typed, shows what is answered, and decides nothing.
import { $, kept, setText, work } from "./base.js";
import { asked, trouble } from "./talk.js";
import "./questions.js";
import { drawCases } from "./cases.js";
import { redraw } from "./file.js";
import { begin, offer } from "./drafts.js";

addEventListener("beforeunload", (e) => { if (work.text !== work.read) e.preventDefault(); });
try {
  const now = await asked("open", {});
  $("label").textContent = now.label;
  document.title = now.label + " – Loamcast";
  $("invented").textContent = now.invented;
  $("invented").hidden = !now.invented;
  $("save").hidden = !now.saves;
  $("asking").innerHTML = now.questions;
  for (const part of now.parts) $("report-part").append(new Option(part, part));
  const before = kept("work");
  if (before && (before.hash === now.hash || before.text !== before.read)) {
    // Where the file has changed while edits were kept, these stay, and saving asks.
    Object.assign(work, before);
  } else Object.assign(work, { text: now.text, read: now.text, hash: now.hash, cases: before?.cases || [] });
  setText(work.text);
  offer(now.offers);
  begin();
  drawCases();
  await redraw();
} catch (e) {
  if (e.status) trouble(e.message);
  else if (!e.told) throw e;
}
