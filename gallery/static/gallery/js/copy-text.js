// Adds a "copy" button beside a text to be kept, such as a private link.
// Hook: data-copy="words of the button" data-copied="words afterwards" on the element with the text.
document.querySelectorAll("[data-copy]").forEach((source) => {
  if (!navigator.clipboard) return;
  const button = document.createElement("button");
  button.type = "button";
  button.className = "btn btn-small";
  button.textContent = source.dataset.copy;
  button.setAttribute("aria-live", "polite");
  button.addEventListener("click", async () => {
    await navigator.clipboard.writeText(source.value ?? source.textContent.trim());
    button.textContent = source.dataset.copied;
  });
  source.after(button);
});
