// The page of Loamcast: sends what is typed, shows what is answered, and decides nothing.
"use strict";
(() => {
  const $ = (id) => document.getElementById(id);
  const all = (selector, within = document) => [...within.querySelectorAll(selector)];
  const kept = (name) => { try { return JSON.parse(sessionStorage.getItem(name)); } catch { return null; } };
  const keep = (name, value) => { try { sessionStorage.setItem(name, JSON.stringify(value)); } catch { /* nothing is kept then */ } };

  // The token comes in the part of the address that is sent to nobody, and is taken out of
  // it so that it is not copied with it.
  const token = location.hash.length > 1 ? location.hash.slice(1) : kept("token") || "";
  keep("token", token);
  history.replaceState(null, "", location.pathname);
  const tab = kept("tab") || String(Math.random()).slice(2);
  keep("tab", tab);

  // What is edited: the text, the hash of the file as it was read, dials that are turned,
  // dials that are shown, and cases.
  let work = { text: "", hash: "", read: "", dials: {}, paths: [], cases: [] };
  const settings = (dials = work.dials) => Object.entries(dials).map(([path, value]) => ({ path, value }));
  const save = () => { keep("work", work); $("edited").hidden = work.text === work.read; };

  // ---- requests
  const trouble = (words) => { $("trouble").textContent = words; $("trouble").hidden = !words; };
  async function send(path, body, signal) {
    let answer;
    try {
      answer = await fetch("/api/" + path, { method: "POST", signal, headers: { "Content-Type": "application/json", "Loamcast-Token": token }, body: JSON.stringify({ tab, ...body }) });
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
  const asked = async (path, body) => (await send(path, body)).json();

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

  const said = (list) => {
    const ul = document.createElement("ul");
    for (const p of list) {
      const li = document.createElement("li");
      li.textContent = (p.line ? "Line " + p.line + ": " : "") + p.words;
      if (p.warning) li.className = "warning";
      ul.append(li);
    }
    return list.length ? [ul] : [];
  };

  // ask asks for an answer in one view. One answer is worked at in a tab: a new one takes
  // the place of that before, in whatever view.
  let running = null;
  async function ask(view, path, body, on = {}) {
    if (running && running.view !== view) running.stop();
    running?.abort.abort();
    const state = $(view + "-state"), article = $(view + "-answer"), problems = $(view + "-problems");
    const own = (running = { view, abort: new AbortController(), stop: () => { end("Stopped, for something else was asked."); stale = stale || view === "whatif"; } });
    const current = () => running === own;
    const end = (words) => { state.textContent = words; article.setAttribute("aria-busy", "false"); };
    article.setAttribute("aria-busy", "true");
    state.textContent = "Working …";
    if (view !== "whatif") state.scrollIntoView({ block: "nearest" });
    problems.replaceChildren();
    let ended = false;
    const show = (a) => { article.innerHTML = a.html; enlargeable(article); problems.replaceChildren(...said(a.warnings || [])); };
    try {
      await events(path, body, own.abort.signal, {
        look: (a) => { show(a); state.textContent = "A first look; looking more closely …"; },
        progress: (p) => { state.textContent = (article.querySelector("b")?.textContent === "A first look" ? "A first look; " : "") + p.part + ": " + p.done + " of " + p.total; },
        answer: (a) => { ended = true; show(a); end("As on the command line, file " + a.hash.slice(0, 12)); },
        compared: (list) => {
          ended = true;
          article.innerHTML = list.map((html) => "<section>" + html + "</section>").join("");
          enlargeable(article);
          end("");
        },
        ranked: async (r) => {
          ended = true;
          work.paths = r.paths;
          await drawDials();
          $("ranked").textContent = r.moving ? "In the order in which loamcast drivers has them." : "Nothing that is uncertain moves the order more than chance does.";
          $("ranked").hidden = false;
          end("");
          whatif();
        },
        problems: (list) => { ended = true; on.problems?.(list); problems.replaceChildren(...said(list)); end("This is not simulated: what is shown is from before."); },
        option: (o) => { ended = true; on.option?.(o); problems.replaceChildren(...said([o])); end(""); },
        failed: (f) => { ended = true; problems.replaceChildren(...said([f])); end(""); },
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

  // ---- what if
  const later = (wait, f) => { let timer; return (...args) => { clearTimeout(timer); timer = setTimeout(() => f(...args), wait); }; };
  function dialProblems(list) {
    for (const dial of all(".dial")) {
      const own = list.filter((p) => p.path === dial.dataset.path && !p.warning);
      const at = dial.querySelector(".problem");
      at.textContent = own.map((p) => p.words).join("\n");
      at.hidden = !own.length;
      dial.querySelector(".value").setAttribute("aria-invalid", String(own.length > 0));
    }
  }
  // stale says that what is shown is not of the dials: it is asked anew when it is seen.
  let stale = false;
  const whatif = later(150, () => {
    stale = $("whatif").hidden;
    if (stale) return;
    dialProblems([]);
    ask("whatif", "ask", { text: work.text, dials: settings(), question: "when" }, { problems: dialProblems });
  });
  async function drawDials() {
    const { html, paths } = await asked("dials", { text: work.text, paths: work.paths });
    work.paths = paths;
    $("dials").innerHTML = html;
    for (const dial of all(".dial")) {
      const value = work.dials[dial.dataset.path];
      if (value !== undefined) { dial.querySelector(".value").value = value; follow(dial); }
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
  $("dials").addEventListener("input", (e) => {
    const dial = e.target.closest(".dial");
    if (e.target.type === "range") {
      const unit = e.target.dataset.unit;
      dial.querySelector(".value").value = Number(e.target.value).toFixed(e.target.dataset.decimals) + (unit ? " " + unit : "");
    }
    turn(dial);
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
  $("reset").addEventListener("click", async () => { work.dials = {}; await drawDials(); whatif(); });
  $("rank").addEventListener("click", () => ask("whatif", "rank", { text: work.text, dials: settings(), paths: work.paths }));
  const search = later(150, async () => {
    const words = $("words").value;
    $("found").innerHTML = words.trim() ? (await asked("search", { text: work.text, words })).html : "";
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
    all(".dial").find((d) => d.dataset.path === path).querySelector(".value").focus();
  });

  // ---- questions
  $("asking").addEventListener("submit", (e) => {
    e.preventDefault();
    const form = e.target, options = {};
    for (const input of all("input", form)) {
      if (input.type === "checkbox" ? input.checked : input.value.trim()) options[input.name] = input.value.trim();
    }
    const problem = (name, words) => {
      const at = form.elements[name]?.closest(".option")?.querySelector(".problem");
      if (at) { at.textContent = words; at.hidden = !words; }
    };
    for (const input of all("input", form)) problem(input.name, "");
    ask("questions", "ask", { text: work.text, dials: settings(), question: form.dataset.question, options }, { option: (o) => problem(o.option.replace(/:$/, ""), o.words) });
  });

  // ---- cases
  function drawCases() {
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
      work.dials = { ...c.dials };
      for (const path of Object.keys(c.dials)) if (!work.paths.includes(path)) work.paths.push(path);
      await drawDials();
      whatif();
      view("whatif");
    } else {
      const name = c.name.replace(/[^\p{L}\p{N} ._-]+/gu, "-") + ".yaml";
      store({ text: work.text, dials: settings(c.dials), name }, "cases");
    }
  });

  // ---- the file
  const drawForm = async () => {
    const { html, problems, sound } = await asked("form", { text: work.text });
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
  const edited = later(300, async () => { if (await drawForm()) { await drawDials(); whatif(); } });
  $("text").addEventListener("input", () => { work.text = $("text").value; save(); edited(); });
  $("form").addEventListener("submit", (e) => e.preventDefault());
  $("form").addEventListener("change", async (e) => {
    const path = e.target.dataset.path;
    const { text, problems } = await asked("edit", { text: work.text, dials: [{ path, value: e.target.value }] });
    if (problems?.length) { $("file-problems").replaceChildren(...said(problems)); return; }
    setText(text);
    const at = document.activeElement?.dataset?.path;
    if (await drawForm()) { await drawDials(); whatif(); }
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
  function setText(text) { work.text = text; $("text").value = text; save(); }
  async function store(body, view) {
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
        if (await drawForm()) { await drawDials(); whatif(); }
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

  // enlargeable gives each picture a button that makes it twice and four times as wide, to
  // be moved along under, and then as wide as the page again.
  function enlargeable(article) {
    for (const figure of all("figure", article)) {
      const b = document.createElement("button"), sizes = ["Twice as large", "Four times as large", "As wide as the page"];
      let size = 0;
      Object.assign(b, { type: "button", className: "enlarge", textContent: sizes[0] });
      b.addEventListener("click", () => {
        size = (size + 1) % sizes.length;
        figure.dataset.size = size;
        b.textContent = sizes[size];
      });
      figure.tabIndex = 0; // so that the keyboard moves it, too
      figure.before(b);
    }
  }

  // ---- views
  const views = all("main > section").map((s) => s.id);
  function view(name) {
    for (const v of views) $(v).hidden = v !== name;
    for (const b of all("nav button")) {
      if (b.dataset.view === name) b.setAttribute("aria-current", "page");
      else b.removeAttribute("aria-current");
    }
    if (name === "whatif" && stale) whatif();
    if (name === "file") drawForm();
    if (name === "cases") drawCases();
  }
  for (const b of all("nav button")) b.addEventListener("click", () => view(b.dataset.view));
  addEventListener("beforeunload", (e) => { if (work.text !== work.read) e.preventDefault(); });

  // ---- begin
  (async () => {
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
      work = before && before.hash === now.hash ? before : { ...work, text: now.text, read: now.text, hash: now.hash, cases: before?.cases || [] };
      if (before && before.hash !== now.hash && before.text !== before.read) {
        // The file has changed while edits were kept: these stay, and saving asks.
        work = before;
      }
      setText(work.text);
      drawCases();
      if (await drawForm()) { await drawDials(); whatif(); }
    } catch (e) { if (e.status) trouble(e.message); else throw e; }
  })();
})();
