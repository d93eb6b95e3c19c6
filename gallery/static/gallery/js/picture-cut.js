// Draws the cut on the picture: its four corners are drawn with a finger or a mouse, and the number
// fields follow; the fields alone do the same.
// Hooks: data-cut on the form with fields named left, top, right, bottom in percent; data-cut-board
// around the picture; data-cut-help is shown with this script only.
{
  const LEAST = 5; // percent that must stay between two sides
  const form = document.querySelector("[data-cut]");
  const board = form?.querySelector("[data-cut-board]");
  const sides = ["left", "top", "right", "bottom"];
  const across = { left: "right", right: "left", top: "bottom", bottom: "top" };
  const field = (side) => form.elements[side];

  const read = (side) => {
    const number = Number.parseFloat(field(side).value.replace(",", "."));
    return Number.isFinite(number) ? Math.min(Math.max(number, 0), 100) : 0;
  };

  const write = (side, percent) => {
    const most = 100 - LEAST - read(across[side]);
    field(side).value = String(Math.round(Math.min(Math.max(percent, 0), most)));
  };

  const draw = (frame) => sides.forEach((side) => { frame.style[side] = `${read(side)}%`; });

  const pull = (frame, corner) => (event) => {
    event.preventDefault();
    corner.setPointerCapture(event.pointerId);
    const [upright, level] = corner.dataset.corner.split(" ");
    const move = (moving) => {
      const box = board.getBoundingClientRect();
      const x = (100 * (moving.clientX - box.left)) / box.width;
      const y = (100 * (moving.clientY - box.top)) / box.height;
      write(level, level === "left" ? x : 100 - x);
      write(upright, upright === "top" ? y : 100 - y);
      draw(frame);
    };
    corner.addEventListener("pointermove", move);
    const stop = () => corner.removeEventListener("pointermove", move);
    corner.addEventListener("pointerup", stop, { once: true });
    corner.addEventListener("pointercancel", stop, { once: true });
  };

  if (board) {
    const frame = document.createElement("div");
    frame.className = "cut-frame";
    frame.setAttribute("aria-hidden", "true");
    ["top left", "top right", "bottom left", "bottom right"].forEach((name) => {
      const corner = document.createElement("span");
      corner.className = "cut-corner";
      corner.dataset.corner = name;
      corner.addEventListener("pointerdown", pull(frame, corner));
      frame.append(corner);
    });
    board.append(frame);
    draw(frame);
    form.querySelector("[data-cut-help]").hidden = false;
    form.addEventListener("input", () => draw(frame));
  }
}
