// Keeps a double click from sending a form twice, and says that it is on its way.
// Hook: data-send-once on the form; its value, if any, replaces the button's words.
document.addEventListener("submit", (event) => {
  const form = event.target;
  if (!("sendOnce" in form.dataset)) return;
  if (form.dataset.onItsWay) {
    event.preventDefault();
    return;
  }
  form.dataset.onItsWay = "yes";
  const button = event.submitter;
  if (button && form.dataset.sendOnce) button.textContent = form.dataset.sendOnce;
  if (button) button.setAttribute("aria-disabled", "true");
});

// The back button may bring the page back as it was left: let it be sent again.
window.addEventListener("pageshow", (event) => {
  if (!event.persisted) return;
  document.querySelectorAll("[data-on-its-way]").forEach((form) => delete form.dataset.onItsWay);
  document.querySelectorAll("form[data-send-once] [aria-disabled=true]").forEach((button) => {
    button.removeAttribute("aria-disabled");
  });
});
