// Shows the pictures just chosen, each with a field for its description, before they are sent.
// Hook: data-send-pictures="id of an empty list" data-row="id of a template" on the file input.
// The pictures stay on the device: they are shown from blob: addresses.
{
  const row = (template, file) => {
    const item = template.content.firstElementChild.cloneNode(true);
    const picture = item.querySelector("img");
    item.querySelector("[data-name]").textContent =
      `${file.name} (${(file.size / 1048576).toFixed(1)} MB)`;
    picture.addEventListener("load", () => URL.revokeObjectURL(picture.src), { once: true });
    // What the browser cannot draw keeps its name and its fields.
    picture.addEventListener("error", () => picture.remove(), { once: true });
    picture.src = URL.createObjectURL(file);
    return item;
  };

  document.querySelectorAll("[data-send-pictures]").forEach((input) => {
    const list = document.getElementById(input.dataset.sendPictures);
    const template = document.getElementById(input.dataset.row);
    if (!list || !template) return;
    const show = () =>
      list.replaceChildren(...Array.from(input.files, (file) => row(template, file)));
    input.addEventListener("change", show);
    if (input.files.length) show();
  });
}
