// Shows the pictures just chosen, small, with their names, before they are sent.
// Hook: data-chosen-pictures="id of an empty list" on the file input. The pictures stay on the
// device: they are shown from blob: addresses. What the browser cannot draw keeps its name only.
{
  const row = (file) => {
    const item = document.createElement("li");
    const picture = document.createElement("img");
    const name = document.createElement("span");
    picture.alt = "";
    picture.addEventListener("load", () => URL.revokeObjectURL(picture.src), { once: true });
    picture.addEventListener("error", () => picture.remove(), { once: true });
    picture.src = URL.createObjectURL(file);
    name.textContent = `${file.name} (${(file.size / 1048576).toFixed(1)} MB)`;
    item.append(picture, name);
    return item;
  };

  document.querySelectorAll("[data-chosen-pictures]").forEach((input) => {
    const list = document.getElementById(input.dataset.chosenPictures);
    const show = () => list.replaceChildren(...Array.from(input.files, row));
    if (!list) return;
    input.addEventListener("change", show);
    if (input.files.length) show();
  });
}
