// The pictures of a draft are moved, turned and taken out where they stand; without this script each
// button sends the form. Dragging is an extra: the buttons do the same.
// Hooks: data-pictures="address with PICTURE in it" on the list's form part; li[data-picture] with
// buttons named earlier, later, turn, take_out; data-drag on the handle; data-number; data-use-hint.
{
  const list = document.querySelector("[data-pictures]");
  const form = list?.closest("form");
  const moved = document.getElementById("picture-moved")?.content.textContent.trim() || "";

  const items = () => [...list.querySelectorAll("li[data-picture]")];
  const say = (words) => { list.querySelector("[data-says-moved]").textContent = words; };

  const number = () => {
    items().forEach((item, at) => {
      item.querySelector("[data-number]").textContent = at + 1;
      item.querySelector("[data-drag]")?.removeAttribute("hidden");
      item.querySelectorAll("[data-use-hint]").forEach((button) => { button.hidden = false; });
    });
  };

  const settle = (item) => {
    number();
    say(moved.replace("{place}", items().indexOf(item) + 1));
    form.dispatchEvent(new Event("input", { bubbles: true })); // the new order is kept like a word
  };

  const step = (item, back) => {
    const other = back ? item.previousElementSibling : item.nextElementSibling;
    if (!other) return;
    if (back) other.before(item);
    else other.after(item);
    settle(item);
  };

  const deed = async (item, what) => {
    const data = new FormData(form);
    data.delete("pictures");
    data.set("deed", what);
    const address = list.dataset.pictures.replace("PICTURE", item.dataset.picture);
    const answer = await fetch(address, { method: "POST", body: data });
    const said = await answer.json();
    if (said.sent) location.assign(said.sent);
    return said;
  };

  const turn = async (item, button) => {
    const said = await deed(item, "turn");
    if (said.refused) say(said.refused.join(" "));
    if (!said.html) return;
    item.insertAdjacentHTML("afterend", said.html);
    const fresh = item.nextElementSibling;
    item.remove();
    number();
    document.getElementById(button.id)?.focus();
    window.htmx?.process(fresh);
  };

  const takeOut = async (item) => {
    const said = await deed(item, "take_out");
    if (!said.gone) return;
    const near = item.nextElementSibling || item.previousElementSibling;
    item.remove();
    number();
    form.dispatchEvent(new CustomEvent("room-left", { detail: said.room_left }));
    const place = near?.querySelector("h3") || document.getElementById("id_pictures");
    if (place.tagName === "H3") place.tabIndex = -1;
    place.focus();
  };

  const DEEDS = {
    earlier: (item) => step(item, true),
    later: (item) => step(item, false),
    turn,
    take_out: takeOut,
  };

  const pressed = (event) => {
    const button = event.target.closest("button");
    const item = button?.closest("li[data-picture]");
    if (!item) return;
    if (button.dataset.useHint) useHint(item, button);
    if (!(button.name in DEEDS)) return;
    event.preventDefault();
    const done = DEEDS[button.name](item, button);
    // Where the connection fails, the form itself says so.
    Promise.resolve(done).catch(() => form.requestSubmit(button));
    if (document.contains(button)) button.focus();
  };

  const useHint = (item, button) => {
    const field = document.getElementById(button.dataset.useHint);
    const words = item.querySelector("[data-hint]").textContent.replace(/…$/, "");
    field.value = field.value || words;
    field.focus();
    field.setSelectionRange(field.value.length, field.value.length);
    field.dispatchEvent(new Event("input", { bubbles: true }));
  };

  // ---- dragging by the handle, with a finger or a mouse ----

  const drag = (event) => {
    const handle = event.target.closest("[data-drag]");
    const item = handle?.closest("li[data-picture]");
    if (!item) return;
    event.preventDefault();
    item.classList.add("is-dragged");
    const over = (moving) => {
      const below = document
        .elementsFromPoint(moving.clientX, moving.clientY)
        .map((one) => one.closest("li[data-picture]"))
        .find((one) => one && one !== item);
      if (!below) return;
      const box = below.getBoundingClientRect();
      const isAbove = moving.clientY < box.top + box.height / 2;
      if (isAbove && below.previousElementSibling !== item) below.before(item);
      if (!isAbove && below.nextElementSibling !== item) below.after(item);
    };
    const drop = () => {
      item.classList.remove("is-dragged");
      ["pointermove", "pointerup", "pointercancel"].forEach((name) =>
        document.removeEventListener(name, name === "pointermove" ? over : drop));
      settle(item);
    };
    // Heard by the page: the handle itself is moved, and would lose a capture of the pointer.
    document.addEventListener("pointermove", over);
    document.addEventListener("pointerup", drop);
    document.addEventListener("pointercancel", drop);
  };

  if (list) {
    list.addEventListener("click", pressed);
    list.addEventListener("pointerdown", drag);
    list.addEventListener("pieces-changed", number);
    number();
  }
}
