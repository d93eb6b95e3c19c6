// Folds away what a tick makes needless; nothing in it is lost.
// Hook: data-folds-with="id of the tick box" on what is folded.
{
  const fold = (box) =>
    document.querySelectorAll(`[data-folds-with="${box.id}"]`).forEach((part) => {
      part.hidden = box.checked;
    });
  const foldAll = () =>
    document.querySelectorAll("[data-folds-with]").forEach((part) => {
      const box = document.getElementById(part.dataset.foldsWith);
      if (box) fold(box);
    });
  document.addEventListener("change", (event) => {
    if (event.target.type === "checkbox") fold(event.target);
  });
  document.addEventListener("pieces-changed", foldAll);
  // A link to a field in it opens it again.
  window.addEventListener("hashchange", () => {
    const part = document.getElementById(location.hash.slice(1))?.closest("[data-folds-with]");
    if (part) part.hidden = false;
  });
  foldAll();
}
