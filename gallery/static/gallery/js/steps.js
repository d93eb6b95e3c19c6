// Shows the sending page one step at a time; without this script it is one long form.
// Hooks: data-steps="address of the check" on the form; data-step on each step; data-step-on on its
// buttons, with data-next on the one that goes on and data-step-says on the line for words;
// data-checked="name" on what a check may replace; data-plain on buttons that only a page without
// scripts needs. The address's hash says which step is shown, so the back button simply works.
{
  const KEPT_AFTER = 1500; // milliseconds of quiet, then what is typed is kept in the draft

  const form = document.querySelector("[data-steps]");
  const steps = form ? [...form.querySelectorAll("[data-step]")] : [];
  const ways = form ? [...form.querySelectorAll(".the-way li")] : [];
  const name = (step) => step.dataset.step;

  const posted = (step) => {
    const data = new FormData(form);
    data.delete("pictures"); // they travel by themselves
    data.set("step", step);
    return data;
  };

  const ask = (step) =>
    fetch(form.dataset.steps, { method: "POST", body: posted(step), redirect: "error" });

  // The page knows now what is kept, so that emptying a field here counts as meant.
  const knows = (said) => {
    if (said.as_of) form.elements.as_of.value = said.as_of;
  };

  const replace = (parts) => {
    Object.entries(parts).forEach(([part, html]) => {
      const place = form.querySelector(`[data-checked="${part}"]`);
      if (!place) return;
      place.innerHTML = html;
      window.htmx?.process(place);
      place.dispatchEvent(new CustomEvent("pieces-changed", { bubbles: true }));
    });
  };

  // ---- which step is shown ----

  const stepOf = (hash) => {
    const found = hash.length > 1 && document.getElementById(decodeURIComponent(hash.slice(1)));
    return found ? found.closest("[data-step]") : null;
  };

  const markWay = (at) =>
    ways.forEach((way, here) => {
      way.classList.toggle("step-now", here === at);
      way.classList.toggle("step-done", here < at);
      if (here === at) way.setAttribute("aria-current", "step");
      else way.removeAttribute("aria-current");
    });

  const show = (step, target) => {
    steps.forEach((one) => { one.hidden = one !== step; });
    markWay(steps.indexOf(step));
    const place = target && target.closest("[data-step]") === step ? target : null;
    open(place);
    goTo(place && place.tagName !== "FIELDSET" ? place : step.querySelector("legend"));
    if (name(step) === "look") look(step);
  };

  const open = (place) => {
    for (let one = place; one; one = one.parentElement) if (one.tagName === "DETAILS") one.open = true;
  };

  const goTo = (place) => {
    if (!place) return;
    if (!place.matches("input, select, textarea, button, a")) place.tabIndex = -1;
    place.focus({ preventScroll: true });
    place.scrollIntoView({ block: "start" });
  };

  const follow = () => {
    const step = stepOf(location.hash);
    if (step) show(step, document.getElementById(decodeURIComponent(location.hash.slice(1))));
  };

  // ---- checking a step ----

  const say = (step, words) => {
    step.querySelector("[data-step-says]").textContent = words;
  };

  const told = async (step) => {
    say(step, form.dataset.looking);
    try {
      const answer = await ask(name(step));
      const said = await answer.json();
      knows(said);
      if (said.sent) location.assign(said.sent);
      say(step, "");
      return said;
    } catch {
      say(step, form.dataset.noConnection);
      return null;
    }
  };

  const clearMistakes = (step) =>
    form.parentElement.querySelectorAll(".errors-on-top").forEach((list) => {
      if (!list.closest("[data-step]") || list.closest("[data-step]") === step) list.remove();
    });

  const goOn = async (step) => {
    const said = await told(step);
    if (!said || said.sent) return;
    clearMistakes(step);
    replace(said.parts);
    if (said.good) location.hash = steps[steps.indexOf(step) + 1].querySelector("fieldset").id;
    else goTo(step.querySelector(".errors-on-top"));
  };

  const look = async (step) => {
    const said = await told(step);
    if (said && !said.sent) replace(said.parts);
  };

  // ---- what is typed is kept ----

  let quiet = 0;
  let isKept = true;
  const keep = () => {
    if (isKept || form.dataset.onItsWay) return;
    isKept = true;
    ask("keep").then((answer) => answer.json()).then(knows).catch(() => { isKept = false; });
  };
  const keepSoon = () => {
    isKept = false;
    clearTimeout(quiet);
    quiet = setTimeout(keep, KEPT_AFTER);
  };
  const keepNow = () => {
    if (isKept || document.visibilityState !== "hidden" || form.dataset.onItsWay) return;
    isKept = navigator.sendBeacon(form.dataset.steps, posted("keep"));
  };

  if (form) {
    form.querySelectorAll("[data-step-on]").forEach((bar) => { bar.hidden = false; });
    form.querySelectorAll("[data-plain]").forEach((button) => { button.hidden = true; });
    form.addEventListener("click", (event) => {
      const step = event.target.closest("[data-next]")?.closest("[data-step]");
      if (step) goOn(step);
      // A link to the place one is at already changes no address.
      const link = event.target.closest('a[href^="#"], a [href^="#"]')?.closest("a");
      if (link && link.getAttribute("href") === location.hash) follow();
    });
    document.addEventListener("click", (event) => {
      const link = event.target.closest('.errors-on-top a[href^="#"]');
      if (link && link.getAttribute("href") === location.hash) follow();
    });
    form.addEventListener("input", keepSoon);
    document.addEventListener("visibilitychange", keepNow);
    window.addEventListener("hashchange", follow);
    const wrong = form.querySelector(".is-invalid, .mistake");
    const first = wrong?.closest("[data-step]") || stepOf(location.hash) || steps[0];
    steps.forEach((one) => { one.hidden = one !== first; });
    markWay(steps.indexOf(first));
    if (!document.querySelector("[data-focus-first]")) follow();
  }
}
