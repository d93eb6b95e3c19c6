/* The numbers of a pattern as cells: each row's one field is shown as a cell for each size.
   Without this script the rows stay fields with a blank between the numbers. */
(() => {
  "use strict";
  const table = document.querySelector("table[data-grid]");
  if (!table) return;
  const namesField = table.querySelector(`[name="${table.dataset.grid}"]`);
  const EMPTY = "?"; // holds the place of a size that has no number yet

  const words = (text) => text.trim().split(/[\s;]+/).filter(Boolean);
  const sizeNames = () =>
    namesField.value.includes(";")
      ? namesField.value.split(";").map((name) => name.trim()).filter(Boolean)
      : words(namesField.value);
  const rows = () => [...table.querySelectorAll("tr[data-row]")];
  const whole = (row) => row.querySelector("td.whole input");
  const cells = (row) => [...row.querySelectorAll("td.cell input")];
  const isList = (row) => /\.(groups|steps)$/.test(row.dataset.row);

  /* ---- a row as one field, and as cells ---- */

  function joinedNames(names) {
    if (!names.some((name) => /\s/.test(name))) return names.join(" ");
    return names.length === 1 ? `${names[0]};` : names.join("; ");
  }

  function keep(row) {
    const typed = cells(row).map((cell) => cell.value.trim());
    if (whole(row) === namesField) {
      whole(row).value = joinedNames(typed.filter(Boolean));
      return;
    }
    // A blank inside a cell would be read as the next size.
    const single = typed.map((one) => one.replace(/[\s;]+/g, isList(row) ? "-" : "") || EMPTY);
    whole(row).value = typed.every((one) => one === "") ? "" : single.join(" ");
  }

  function spread(row, names) {
    const field = whole(row);
    const values = field === namesField ? names : words(field.value);
    const each = values.length === 1 ? names.map(() => values[0]) : values;
    const label = row.querySelector("label").textContent.trim();
    const group = row.closest("tbody").querySelector("tr.group th").textContent.trim();
    field.closest("td").hidden = true;
    // More values than sizes: the last ones are shown too, so that nothing typed is out of sight.
    const many = Math.max(names.length, each.length);
    for (let at = 0; at < many; at += 1) {
      const size = names[at] || `${at + 1}`;
      const place = document.createElement("td");
      const cell = document.createElement("input");
      place.className = isList(row) ? "cell list" : "cell";
      cell.className = "form-control";
      cell.value = each[at] === undefined || each[at] === EMPTY ? "" : each[at];
      cell.autocomplete = "off";
      cell.spellcheck = false;
      cell.dataset.size = size;
      cell.setAttribute("aria-label", `${group}, ${label}, ${table.dataset.sizeWord} ${size}`);
      cell.setAttribute("aria-describedby", `${field.id}-notes`);
      place.append(cell);
      row.append(place);
    }
    mark(row);
  }

  /* ---- what is to be looked at ---- */

  function mark(row) {
    const notes = row.querySelector(".row-notes");
    const about = notes && notes.dataset.sizes ? notes.dataset.sizes.split("|") : [];
    const said = notes && notes.children.length > 0;
    cells(row).forEach((cell) => {
      const concerned = said && (about.length === 0 || about.includes(cell.dataset.size));
      const wrong = concerned && notes.dataset.wrong === "yes";
      cell.setAttribute("aria-invalid", wrong ? "true" : "false");
      cell.classList.toggle("doubtful", Boolean(concerned && !wrong));
    });
  }

  function markFields() {
    rows().forEach(mark);
    document.querySelectorAll("[data-field]").forEach((place) => {
      const wrong = place.querySelector(".field-notes").children.length > 0;
      place.querySelectorAll("input, select, textarea").forEach((field) => {
        field.setAttribute("aria-invalid", wrong ? "true" : "false");
      });
    });
  }

  /* ---- a block from a spreadsheet ---- */

  const told = document.getElementById("pasted");

  function tell(sentence, isTrouble) {
    told.className = isTrouble ? "mistake" : "soft";
    told.textContent = sentence;
  }

  function paste(event) {
    const cell = event.target.closest("td.cell input");
    const text = event.clipboardData && event.clipboardData.getData("text");
    const block = text ? text.replace(/\r/g, "").replace(/\n+$/, "") : "";
    if (!cell || !/[\t\n;]/.test(block)) return;
    event.preventDefault();
    const row = cell.closest("tr");
    const below = rows().slice(rows().indexOf(row));
    const left = cells(row).indexOf(cell);
    const lines = block.split("\n").map((line) => line.split(line.includes("\t") ? "\t" : ";"));
    if (lines.length > below.length) return tell(told.dataset.below, true);
    const long = lines.findIndex((line, at) => left + line.length > cells(below[at]).length);
    if (long >= 0) return tell(told.dataset.past.replace("LINE", long + 1), true);
    fill(lines.flatMap((line, at) =>
      line.map((value, right) => [cells(below[at])[left + right], value.trim()])));
  }

  function fill(pairs) {
    const before = pairs.map(([cell]) => [cell, cell.value]);
    put(pairs);
    tell(told.dataset.done.replace("COUNT", pairs.length), false);
    const undo = document.createElement("button");
    undo.type = "button";
    undo.className = "btn btn-small";
    undo.textContent = told.dataset.undo;
    undo.addEventListener("click", () => {
      put(before);
      told.textContent = "";
      before[0][0].focus();
    });
    told.append(" ", undo);
  }

  function put(pairs) {
    pairs.forEach(([cell, value]) => { cell.value = value; });
    new Set(pairs.map(([cell]) => cell.closest("tr"))).forEach(keep);
    pairs[0][0].dispatchEvent(new Event("change", { bubbles: true }));
  }

  /* ---- from cell to cell ---- */

  function move(event) {
    const cell = event.target.closest("td.cell input");
    const steps = { ArrowUp: -1, ArrowDown: 1, Enter: 1 };
    if (!cell || !(event.key in steps)) return;
    event.preventDefault();
    const all = rows();
    const at = cells(cell.closest("tr")).indexOf(cell);
    const next = all[all.indexOf(cell.closest("tr")) + steps[event.key]];
    if (next && cells(next)[at]) {
      cells(next)[at].focus();
      cells(next)[at].select();
    }
  }

  /* ---- kept as one goes, also when the window is closed in the middle of a word ---- */

  const form = table.closest("form");
  const turn = form.querySelector("[name=turn]");
  let isUnsent = false;
  const nextTurn = () => { turn.value = Number(turn.value) + 1; };

  form.addEventListener("input", () => { isUnsent = true; });
  form.addEventListener("submit", () => { isUnsent = false; nextTurn(); });
  document.body.addEventListener("htmx:configRequest", (event) => {
    nextTurn();
    isUnsent = false;
    event.detail.formData.set("turn", turn.value);
  });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState !== "hidden" || !isUnsent) return;
    isUnsent = false;
    nextTurn();
    navigator.sendBeacon(form.dataset.keep, new FormData(form));
  });

  const names = sizeNames();
  rows().forEach((row) => spread(row, names));
  table.querySelectorAll("tr.group th").forEach((head) => head.setAttribute("colspan", names.length + 1));
  table.addEventListener("input", (event) => {
    const row = event.target.closest("tr[data-row]");
    if (row && event.target.closest("td.cell")) keep(row);
  });
  table.addEventListener("paste", paste);
  table.addEventListener("keydown", move);
  document.body.addEventListener("htmx:beforeSwap", () => {
    document.querySelectorAll(".field-notes").forEach((notes) => notes.replaceChildren());
  });
  document.body.addEventListener("htmx:afterSettle", markFields);
})();
