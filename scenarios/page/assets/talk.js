// How the page asks the program, and shows the answers as they come.
import { $, all, keep, kept, said } from "./base.js";

// The token comes in the part of the address that is sent to nobody, and is taken out of
// it so that it is not copied with it.
const token = location.hash.length > 1 ? location.hash.slice(1) : kept("token") || "";
keep("token", token);
history.replaceState(null, "", location.pathname);
export const tab = kept("tab") || String(Math.random()).slice(2);
keep("tab", tab);

export const trouble = (words) => { $("trouble").textContent = words; $("trouble").hidden = !words; };
const headers = { "Content-Type": "application/json", "Loamcast-Token": token };
export const post = (path, body, more) => fetch("/api/" + path, { method: "POST", headers, body: JSON.stringify({ tab, ...body }), ...more });
export async function send(path, body, signal) {
  let answer;
  try {
    answer = await post(path, body, { signal });
  } catch (e) {
    e.told = true;
    if (e.name !== "AbortError") trouble("The program has ended or cannot be reached. What you have typed is still here.");
    throw e;
  }
  if (!answer.ok) {
    const e = new Error((await answer.text()).trim());
    e.status = answer.status;
    throw e;
  }
  trouble("");
  return answer;
}
// What nobody else tells is told above the page.
addEventListener("unhandledrejection", (e) => {
  if (e.reason?.status) trouble(e.reason.message);
  if (e.reason?.status || e.reason?.told) e.preventDefault();
});
export const asked = async (path, body) => (await send(path, body)).json();

// events reads the events of an answer one by one.
async function events(path, body, signal, on) {
  const reader = (await send(path, body, signal)).body.pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  for (;;) {
    const { value, done } = await reader.read();
    if (done) return;
    const parts = (rest + value).split("\n\n");
    rest = parts.pop();
    for (const part of parts) {
      const [event, data] = part.split("\n");
      on[event.slice("event: ".length)]?.(JSON.parse(data.slice("data: ".length)));
    }
  }
}

// ask asks for an answer in one view. One answer is worked at in a tab: a new one takes
// the place of that before, in whatever view; on.stopped is told then.
let running = null;
export async function ask(view, path, body, on = {}) {
  if (running && running.view !== view) running.stop();
  running?.abort.abort();
  const state = $(view + "-state"), article = $(view + "-answer"), problems = $(view + "-problems");
  const own = (running = { view, abort: new AbortController(), stop: () => { end("Stopped, for something else was asked."); on.stopped?.(); } });
  const current = () => running === own;
  const end = (words) => { state.textContent = words; article.setAttribute("aria-busy", "false"); };
  article.setAttribute("aria-busy", "true");
  state.textContent = "Working …";
  if (view !== "whatif") state.scrollIntoView({ block: "nearest" });
  problems.replaceChildren();
  let ended = false, look = "";
  const show = (a) => { fill(article, a.html); problems.replaceChildren(...said(a.warnings || [])); };
  const done = (words) => { ended = true; end(words); };
  try {
    await events(path, body, own.abort.signal, {
      // Each look is surer than the one before, and says in a sentence by what and how sure.
      look: (a) => { show(a); look = article.querySelector("p > b").parentElement.textContent.split(". ")[0] + "; "; state.textContent = look + "looking more closely …"; },
      progress: (p) => { state.textContent = look + p.part + ": " + p.done + " of " + p.total; },
      answer: (a) => { show(a); done("As on the command line, file " + a.hash.slice(0, 12)); },
      vessels: (a) => { show(a); done("As loamcast run draws them, file " + a.hash.slice(0, 12)); on.vessels(a); },
      compared: (list) => { fill(article, list.map((html) => "<section>" + html + "</section>").join("")); done(""); },
      ranked: async (r) => { ended = true; await on.ranked(r); end(""); on.after?.(); },
      problems: (list) => { on.problems?.(list); problems.replaceChildren(...said(list)); done("This is not simulated: what is shown is from before."); },
      option: (o) => { on.option?.(o); problems.replaceChildren(...said([o])); done(""); },
      failed: (f) => { problems.replaceChildren(...said([f])); done(""); },
    });
    if (!ended && current()) end("The answer did not come to its end.");
  } catch (e) {
    if (!current() || e.name === "AbortError") return;
    if (e.status) problems.replaceChildren(...said([{ words: e.message }]));
    end("");
  } finally {
    if (current()) running = null;
  }
}

// fill shows an answer. Each picture gets a button that makes it twice and four times as
// wide, to be moved along under, and then as wide as the page again; as the answer becomes
// surer it stays as wide, and where it was.
function fill(article, html) {
  const before = all("figure", article).map((f) => ({ size: Number(f.dataset.size || 0), left: f.scrollLeft }));
  article.innerHTML = html;
  const sizes = ["Twice as large", "Four times as large", "As wide as the page"];
  all("figure", article).forEach((figure, i) => {
    const b = document.createElement("button");
    let size = before[i]?.size || 0;
    const draw = () => { figure.dataset.size = size; b.textContent = sizes[size]; };
    Object.assign(b, { type: "button", className: "enlarge" });
    b.addEventListener("click", () => { size = (size + 1) % sizes.length; draw(); });
    draw();
    figure.tabIndex = 0; // so that the keyboard moves it, too
    figure.before(b);
    figure.scrollLeft = before[i]?.left || 0;
  });
}
