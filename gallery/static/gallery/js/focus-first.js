// Moves the focus to the list of mistakes when a form comes back with some.
// Hook: data-focus-first on the element (it needs tabindex="-1").
document.querySelector("[data-focus-first]")?.focus();
