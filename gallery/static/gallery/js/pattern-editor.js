/* The numbers of a pattern as cells: each row's one field is shown as a cell for each size.
   Without this script the rows stay fields with a blank between the numbers. */
(() => {
  "use strict";
  const table = document.querySelector("table[data-grid]");
  if (!table) return;
  const namesField = table.querySelector(`[name="${table.dataset.grid}"]`);
  const EMPTY = "?"; // holds the place of a size that has no number yet

  // A comma before a blank only parts, as on the server; one inside a word is a decimal comma.
  const words = (text) => text.trim().split(/,?[\s;]+|,$/).filter(Boolean);
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
    const block = text ? text.replace(/\r\n?/g, "\n").replace(/(\n[\t ;]*)+$/, "") : "";
    if (!cell || !(/[\t\n;]/.test(text) || isRow(cell, block))) return;
    event.preventDefault();
    const below = rows().slice(rows().indexOf(cell.closest("tr")));
    const left = cells(below[0]).indexOf(cell);
    const lines = block.replace(NAME_ABOVE_UNIT, "$1\t$2\t").split("\n").map((line, at) => taken(line, left, below[at]));
    const trouble = lines.length > below.length ? told.dataset.below : refused(lines, left, below);
    if (trouble) return tell(trouble, true);
    fill(lines.flatMap((line, at) =>
      line.values.map((value, right) => [cells(below[at])[left + right], value])));
  }

  // Several numbers with blanks between are a row, also without a tab.
  const isRow = (cell, text) => !isList(cell.closest("tr")) && /\d[ ,]+\d.* \d/.test(text);
  const isWord = (value) => /\p{L}/u.test(value) && !/\d/.test(value);
  const UNITS = ["stitches", "rows", "cm", "in", "m"]; // as in the site's own tables

  // A browser copies name, unit and numbers of those tables one below the other.
  const NAME_ABOVE_UNIT = new RegExp(`^([^\\t\\n]+)\\n(${UNITS.join("|")})[\\t\\n]`, "gm");

  function taken(line, left, row) {
    const mark = ["\t", ";"].find((sign) => line.includes(sign));
    const isBlankParted = !mark && row && !isList(row) && /\d/.test(line);
    const values = isBlankParted
      ? words(line)
      : (mark ? line.split(mark) : [line]).map((value) => value.trim());
    // Before exactly as many values as there are sizes may stand a name and a unit.
    const extra = row ? values.length - cells(row).length : 0;
    const lead = values.slice(0, Math.max(extra, 0));
    const rest = values.slice(lead.length);
    const isNamed = left === 0 && lead.length > 0 && (isBlankParted || lead.length < 3)
      && isWord(lead[0]) && (lead.length === 1 || !/^\d/.test(lead[lead.length - 1]))
      && !rest.some((value) => isWord(value) && value.toLowerCase() !== "none");
    if (!isNamed) return { values, unit: "" };
    const last = lead.join(" ").trim().split(/\s+/).pop();
    return { values: rest, unit: UNITS.includes(last) ? last : "" };
  }

  function refused(lines, left, below) {
    const trouble = (name, at) => told.dataset[name].replace("LINE", at + 1);
    for (let at = 0; at < lines.length; at += 1) {
      const { values, unit } = lines[at];
      const isNames = whole(below[at]) === namesField;
      const isHeading = left === 0 && lines.length > 1 && values.length === 1
        && isWord(values[0]) && values[0].toLowerCase() !== "none";
      if (isHeading && !isNames) return trouble("heading", at);
      if (unit && unit !== below[at].dataset.unit) return trouble("unit", at);
      if (left + values.length > cells(below[at]).length) return trouble("past", at);
    }
    return "";
  }

  function fill(places) {
    const pairs = places.filter(([, value]) => value !== "");
    if (!pairs.length) return;
    const before = pairs.map(([cell]) => [cell, cell.value]);
    put(pairs);
    const passed = pairs.length < places.length ? ` ${told.dataset.passed}` : "";
    tell(told.dataset.done.replace("COUNT", pairs.length) + passed, false);
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
