// What the parts of the page share: what is edited, and small helpers.
export const $ = (id) => document.getElementById(id);
export const all = (selector, within = document) => [...within.querySelectorAll(selector)];
export const kept = (name) => { try { return JSON.parse(sessionStorage.getItem(name)); } catch { return null; } };
export const keep = (name, value) => { try { sessionStorage.setItem(name, JSON.stringify(value)); } catch { /* nothing is kept then */ } };
export const later = (wait, f) => { let timer; return (...args) => { clearTimeout(timer); timer = setTimeout(() => f(...args), wait); }; };

// What is edited: the text, the hash of the file as it was read, dials that are turned,
// dials that are shown, and cases.
export const work = { text: "", hash: "", read: "", dials: {}, paths: [], cases: [] };
export const settings = (dials = work.dials) => Object.entries(dials).map(([path, value]) => ({ path, value }));
export const dialsOf = (list) => Object.fromEntries((list || []).map((s) => [s.path, s.value]));

// save keeps what is edited in the tab, and tells who else wants to know.
const savers = [];
export const onSave = (f) => savers.push(f);
export function save() {
  keep("work", work);
  $("edited").hidden = work.text === work.read;
  for (const f of savers) f();
}
export function setText(text) { work.text = text; $("text").value = text; save(); }

// said lists what is wrong, or warned of.
export function said(list) {
  const ul = document.createElement("ul");
  for (const p of list) {
    const li = document.createElement("li");
    li.textContent = (p.line ? "Line " + p.line + ": " : "") + p.words;
    if (p.warning) li.className = "warning";
    ul.append(li);
  }
  return list.length ? [ul] : [];
}
