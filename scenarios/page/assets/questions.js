// Every question, with its options, and the vessels over time.
import { $, all, settings, work } from "./base.js";
import { ask } from "./talk.js";
import { onView } from "./views.js";

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

// The quarter that is seen stays when dials are turned; seen is what it was seen of.
let quarter = "", seen = "";
function vessels(to = quarter) {
  quarter = to;
  const of = { text: work.text, dials: settings() };
  seen = JSON.stringify(of);
  ask("vessels", "vessels", { ...of, quarter }, {
    vessels: (a) => {
      $("quarter").innerHTML = a.quarters;
      quarter = $("quarter").value;
      for (const b of all("#moving button")) { b.value = a.to[b.dataset.by]; b.disabled = !b.value; }
    },
    option: () => { quarter = ""; }, // the horizon is another one now
    stopped: () => { seen = ""; },
  });
}
onView("vessels", () => { if (seen !== JSON.stringify({ text: work.text, dials: settings() })) vessels(); });
$("moving").addEventListener("submit", (e) => e.preventDefault());
$("moving").addEventListener("click", (e) => { if (e.target.matches("button")) vessels(e.target.value); });
$("quarter").addEventListener("change", () => vessels($("quarter").value));
