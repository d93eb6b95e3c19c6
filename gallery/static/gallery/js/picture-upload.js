// Sends each chosen picture by itself, with its progress, and again by itself after a dropped
// connection; without this script the pictures travel with the form.
// Hooks: data-upload="address" on the place, with data-kept="id of the list of kept pictures",
// data-row="id of a template" and the words to say in data- attributes; inside it data-room around
// the fields, data-full, data-on-the-way for the list and data-says for what is read out.
{
  const WAITS = [1, 2, 4, 8, 15, 30]; // seconds before each new try
  const STALLED = 45000; // milliseconds without a byte: the connection is dead
  const MEGABYTE = 1048576;

  const start = (place) => {
    const form = place.closest("form");
    const template = document.getElementById(place.dataset.row);
    const list = place.querySelector("[data-on-the-way]");
    const words = place.dataset;
    const waiting = [];
    let going = null;
    let isHeld = null; // the button that was pressed while pictures were on their way

    const say = (text) => { place.querySelector("[data-says]").textContent = text; };

    const rowFor = (file) => {
      const item = template.content.firstElementChild.cloneNode(true);
      const picture = item.querySelector("img");
      item.querySelector("[data-name]").textContent =
        `${file.name} (${(file.size / MEGABYTE).toFixed(1)} MB)`;
      picture.addEventListener("load", () => URL.revokeObjectURL(picture.src), { once: true });
      // What the browser cannot draw is shown when it has arrived.
      picture.addEventListener("error", () => picture.remove(), { once: true });
      picture.src = URL.createObjectURL(file);
      return item;
    };

    const state = (one, text) => { one.row.querySelector("[data-state]").textContent = text; };

    const choose = (files) => {
      [...files].forEach((file) => {
        const one = { file, row: rowFor(file), tries: 0, timer: 0, request: null };
        state(one, words.waiting);
        one.row.querySelector("[data-cancel]").addEventListener("click", () => cancel(one));
        one.row.querySelector("[data-try-again]").addEventListener("click", () => again(one));
        list.append(one.row);
        waiting.push(one);
      });
      next();
    };

    const next = () => {
      if (!going && waiting.length) send(waiting.shift());
      if (!going && !waiting.length && isHeld) {
        const button = isHeld;
        isHeld = null;
        if (!list.querySelector("[data-refused]")) form.requestSubmit(button);
      }
    };

    const send = (one) => {
      going = one;
      const request = new XMLHttpRequest();
      const data = new FormData();
      one.request = request;
      data.append("csrfmiddlewaretoken", form.elements.csrfmiddlewaretoken.value);
      ["draft", "edition"].forEach((name) => {
        if (form.elements[name]) data.append(name, form.elements[name].value);
      });
      data.append("pictures", one.file);
      const watch = () => {
        clearTimeout(one.timer);
        one.timer = setTimeout(() => request.abort(), STALLED);
      };
      request.upload.addEventListener("progress", (event) => {
        watch();
        one.row.querySelector("progress").value = (100 * event.loaded) / event.total;
        state(one, event.loaded < event.total ? words.going : words.checking);
      });
      request.addEventListener("load", () => answered(one, request));
      request.addEventListener("error", () => broke(one));
      request.addEventListener("abort", () => broke(one));
      request.open("POST", place.dataset.upload);
      request.responseType = "json";
      request.send(data);
      state(one, words.going);
      watch();
    };

    const answered = (one, request) => {
      clearTimeout(one.timer);
      const said = request.response;
      if (request.status >= 500 && request.status !== 507) broke(one);
      else if (!said) refuse(one, [words.refused]);
      else if (said.sent) location.assign(said.sent);
      else if (request.status === 200) arrive(one, said);
      else refuse(one, said.refused || [words.refused]);
    };

    const arrive = (one, said) => {
      one.row.remove();
      if (!document.getElementById(`picture-${said.id}`)) {
        // Looked up now: a checked step may have put a new list in its place.
        const kept = document.getElementById(place.dataset.kept);
        kept.insertAdjacentHTML("beforeend", said.html);
        window.htmx?.process(kept.lastElementChild);
        kept.dispatchEvent(new CustomEvent("pieces-changed", { bubbles: true }));
      }
      if (said.edition && form.elements.edition) form.elements.edition.value = said.edition;
      const step = place.closest("[data-step], fieldset");
      step.querySelectorAll("#div_id_pictures .invalid-feedback, .errors-on-top").forEach((words) => words.remove());
      say([...(said.told || []), words.arrived].join(" "));
      room(said.room_left);
      done();
    };

    const refuse = (one, sentences) => {
      one.row.dataset.refused = "yes";
      one.row.querySelector("progress").remove();
      one.row.querySelector("[data-state]").classList.add("mistake");
      state(one, sentences.join(" "));
      say(sentences.join(" "));
      done();
    };

    const done = () => {
      going = null;
      next();
    };

    // Nothing is lost but this one try: what arrived before stays, the others wait their turn.
    const broke = (one) => {
      clearTimeout(one.timer);
      if (one.isCancelled) return;
      const seconds = WAITS[Math.min(one.tries, WAITS.length - 1)];
      one.tries += 1;
      one.row.querySelector("progress").value = 0;
      one.row.querySelector("[data-try-again]").hidden = false;
      state(one, navigator.onLine ? words.broken : words.offline);
      if (one.tries === 1) say(words.broken);
      one.timer = setTimeout(() => again(one), seconds * 1000);
    };

    const again = (one) => {
      clearTimeout(one.timer);
      one.row.querySelector("[data-try-again]").hidden = true;
      if (going === one) send(one);
    };

    const cancel = (one) => {
      one.isCancelled = true;
      clearTimeout(one.timer);
      one.row.remove();
      if (waiting.includes(one)) waiting.splice(waiting.indexOf(one), 1);
      if (going !== one) return next();
      one.request.abort();
      done();
      return undefined;
    };

    const room = (left) => {
      if (left === undefined) return;
      place.querySelector("[data-room]").hidden = left < 1;
      place.querySelector("[data-full]").hidden = left > 0;
    };

    place.querySelectorAll('input[type="file"]').forEach((input) => {
      const take = () => {
        const files = [...input.files];
        input.value = ""; // else they would travel with the form once more
        choose(files);
      };
      input.addEventListener("change", take);
      if (input.files.length) take();
    });
    form.addEventListener("room-left", (event) => room(event.detail));
    window.addEventListener("online", () => { if (going) again(going); });
    // Sending waits for the pictures; nothing else does.
    form.addEventListener("submit", (event) => {
      if (!going && !waiting.length) return;
      if (!["send", "save", "look"].includes(event.submitter?.name)) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      isHeld = event.submitter;
      say(words.hold);
      list.scrollIntoView({ block: "center" });
      form.querySelectorAll("[data-step-says]").forEach((line) => { line.textContent = words.hold; });
    }, true);
    window.addEventListener("beforeunload", (event) => {
      if (going || waiting.length) event.preventDefault();
    });
    place.querySelectorAll("[data-plain]").forEach((button) => { button.hidden = true; });
  };

  document.querySelectorAll("[data-upload]").forEach(start);
}
