/* The numbers of a pattern as cells: each row's one field is shown as a cell for each size.
   Without this script the rows stay fields with a blank between the numbers. */
(() => {
  "use strict";
  const table = document.querySelector("table[data-grid]");
  if (!table) return;
  const namesField = table.querySelector(`[name="${table.dataset.grid}"]`);

  const sizeNames = () =>
    namesField.value.includes(";")
      ? namesField.value.split(";").map((name) => name.trim()).filter(Boolean)
      : namesField.value.split(/\s+/).filter(Boolean);
  const words = (text) => text.trim().split(/[\s;]+/).filter(Boolean);
  const rows = () => [...table.querySelectorAll("tr[data-row]")];
  const whole = (row) => row.querySelector("td.whole input");
  const cells = (row) => [...row.querySelectorAll("td.cell input")];

  function keep(row) {
    const typed = cells(row).map((cell) => cell.value.trim());
    const isNames = whole(row) === namesField;
    const spaced = isNames && typed.some((name) => /\s/.test(name));
    const filled = typed.map((one) => (one === "" ? "?" : one));
    const nothing = typed.every((one) => one === "");
    whole(row).value = nothing ? "" : filled.join(spaced ? "; " : " ");
  }

  function spread(row, names) {
    const field = whole(row);
    const values = field === namesField ? names : words(field.value);
    const label = row.querySelector("label").textContent.trim();
    const group = row.closest("tbody").querySelector("tr.group th").textContent.trim();
    const each = values.length === 1 && names.length > 1 ? names.map(() => values[0]) : values;
    field.closest("td").hidden = true;
    row.querySelectorAll("td.cell").forEach((old) => old.remove());
    names.forEach((name, at) => {
      const place = document.createElement("td");
      const cell = document.createElement("input");
      place.className = "cell";
      if (/(groups|steps)$/.test(row.dataset.row)) place.classList.add("list");
      cell.className = "form-control";
      cell.value = each[at] === undefined || each[at] === "?" ? "" : each[at];
      cell.autocomplete = "off";
      cell.dataset.size = name;
      cell.setAttribute("aria-label", `${group}, ${label}, ${table.dataset.sizeWord} ${name}`);
      cell.setAttribute("aria-describedby", `${field.id}-notes`);
      place.append(cell);
      row.append(place);
    });
    mark(row);
  }

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

  function paste(event) {
    const cell = event.target.closest("td.cell input");
    const text = event.clipboardData && event.clipboardData.getData("text");
    if (!cell || !text || !/[\t\n;]/.test(text.trim())) return;
    event.preventDefault();
    const all = rows();
    const top = all.indexOf(cell.closest("tr"));
    const left = cells(all[top]).indexOf(cell);
    text.replace(/\r/g, "").replace(/\n$/, "").split("\n").forEach((line, down) => {
      const row = all[top + down];
      if (!row) return;
      const places = cells(row);
      line.split(/\t|;/).forEach((value, right) => {
        if (places[left + right]) places[left + right].value = value.trim();
      });
      keep(row);
    });
    cell.dispatchEvent(new Event("change", { bubbles: true }));
  }

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

  const names = sizeNames();
  rows().forEach((row) => spread(row, names));
  table.querySelectorAll("tr.group th").forEach((head) => head.setAttribute("colspan", names.length + 1));
  table.addEventListener("input", (event) => {
    const row = event.target.closest("tr[data-row]");
    if (row && event.target.closest("td.cell")) keep(row);
  });
  table.addEventListener("paste", paste);
  table.addEventListener("keydown", move);
  document.body.addEventListener("htmx:oobAfterSwap", () => rows().forEach(mark));
  document.body.addEventListener("htmx:afterSettle", () => rows().forEach(mark));
})();
