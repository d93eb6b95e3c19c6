// Keeps a double click from sending a form twice, and says that it is on its way.
// Hook: data-send-once on the form; its value, if any, replaces the words of the button pressed.
{
  const LOCKED_FOR = 30000; // milliseconds; then a sending that was stopped may be tried again

  const release = (form) => {
    delete form.dataset.onItsWay;
    form.querySelectorAll("[data-words]").forEach((button) => {
      button.textContent = button.dataset.words;
      button.removeAttribute("aria-disabled");
      delete button.dataset.words;
    });
  };

  const lock = (form, button) => {
    form.dataset.onItsWay = "yes";
    setTimeout(release, LOCKED_FOR, form);
    if (!button || button.tagName !== "BUTTON") return;
    button.dataset.words = button.textContent;
    button.setAttribute("aria-disabled", "true");
    if (form.dataset.sendOnce) button.textContent = form.dataset.sendOnce;
  };

  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (!("sendOnce" in form.dataset)) return;
    if (form.dataset.onItsWay) event.preventDefault();
    else lock(form, event.submitter);
  });

  // The back button may bring the page back as it was left.
  window.addEventListener("pageshow", (event) => {
    if (event.persisted) document.querySelectorAll("[data-on-its-way]").forEach(release);
  });
}
