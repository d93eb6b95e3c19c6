"""What a page measures of itself in the browser; each script gives a list of what is wrong."""

# The whole of what can be pressed: a choice is pressed by its row, a card's heading by its card.
# A link inside a sentence is as high as its line: WCAG 2.2, 2.5.8, leaves those out.
SMALL_TARGETS = """(least) => {
  const words = (one) => one.textContent.replace(/\\s+/g, " ").trim();
  const isInSentence = (link) => {
    if (link.tagName !== "A" || getComputedStyle(link).display !== "inline") return false;
    const beside = [...link.parentElement.childNodes].filter((one) => one.nodeType === 3);
    return beside.some((one) => /\\p{L}{2}/u.test(one.textContent));
  };
  const pressed = (one) =>
    one.closest("label.choice, .form-check, .photo-card h3, .photo-card h2")
      ? one.closest("label.choice, .form-check, .photo-card")
      : one;
  const things = "a[href], button, summary, select, textarea, input:not([type=hidden])";
  return [...document.querySelectorAll(things)]
    .filter((one) => one.checkVisibility({ visibilityProperty: true }))
    .filter((one) => !one.closest(".visually-hidden") && one.tabIndex >= 0 && !isInSentence(one))
    .map((one) => [one, pressed(one).getBoundingClientRect()])
    .filter(([, box]) => Math.round(box.height) < least || Math.round(box.width) < least)
    .map(([one, box]) =>
      `${one.tagName} ${words(one).slice(0, 40) || one.name}: ` +
      `${Math.round(box.width)}x${Math.round(box.height)}`);
}"""

# Wider than the window, or cut off by a box that does not scroll.
SIDEWAYS = """() => {
  const root = document.scrollingElement;
  const found = root.scrollWidth > root.clientWidth
    ? [`the page: ${root.scrollWidth} of ${root.clientWidth}`] : [];
  const clips = (one) => {
    const style = getComputedStyle(one);
    return ["hidden", "clip"].includes(style.overflowX) || ["hidden", "clip"].includes(style.overflowY);
  };
  for (const one of document.querySelectorAll("body *")) {
    if (!one.checkVisibility() || one.closest(".visually-hidden, svg, .rib")) continue;
    if (!clips(one) || !one.textContent.trim()) continue;
    if (one.scrollWidth > one.clientWidth + 1 || one.scrollHeight > one.clientHeight + 1)
      found.push(`${one.tagName}.${one.className}: cut off`);
  }
  return found;
}"""

# Values of WCAG 2.2, 1.4.12.
TEXT_SPACING = """
  * { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; }
  p { margin-bottom: 2em !important; }
"""

# Of the focused thing no point is to be seen: at its corners and in its middle others lie.
HIDDEN_FOCUS = """() => {
  const one = document.activeElement;
  if (!one || one === document.body) return "";
  const box = (one.closest("label.choice, .form-check") ?? one).getBoundingClientRect();
  const inside = [0.1, 0.5, 0.9].flatMap((x) => [0.1, 0.5, 0.9].map((y) =>
    [box.left + box.width * x, box.top + box.height * y]));
  const seen = inside.some(([x, y]) => {
    const top = document.elementFromPoint(x, y);
    return top && (one.contains(top) || top.contains(one));
  });
  return seen ? "" : `${one.tagName} ${one.textContent.trim().slice(0, 40)}`;
}"""

_MOTION = """() => [...document.querySelectorAll("*")].flatMap((one) =>
  ["", "::before", "::after"].flatMap((part) => {
    const style = getComputedStyle(one, part || null);
    const seconds = (text) => Math.max(...text.split(",").map((each) => parseFloat(each)));
    const longest = Math.max(
      seconds(style.transitionDuration) + Math.max(0, seconds(style.transitionDelay)),
      style.animationName === "none" ? 0 : seconds(style.animationDuration));
    return longest > LEAST ? [`${one.tagName}.${one.className}${part}: ${longest}s`] : [];
  }))"""
LONG_MOTION = _MOTION.replace("LEAST", "0.2")  # seconds
MOTION = _MOTION.replace("LEAST", "0")

# What a page with mistakes owes: focus on the list, each line leading to its field, each field
# saying that it is wrong and why.
MISTAKES = """() => {
  const found = [];
  const list = document.querySelector(".errors-on-top");
  if (!list) return ["no list of mistakes"];
  if (document.activeElement !== list) found.push("the list has not the focus");
  if (list.getAttribute("role") !== "alert") found.push("the list is not announced");
  const described = (field) => (field.getAttribute("aria-describedby") ?? "").split(/\\s+/)
    .map((id) => document.getElementById(id)?.textContent ?? "").join(" ");
  for (const line of list.querySelectorAll("li")) {
    const link = line.querySelector("a");
    if (!link) { found.push(`no link: ${line.textContent.trim()}`); continue; }
    const field = document.getElementById(decodeURIComponent(link.hash.slice(1)));
    const name = `${link.hash} (${link.textContent.trim().slice(0, 40)})`;
    if (!field) { found.push(`${name}: no such place`); continue; }
    const said = (link.querySelector("span") ?? link).textContent.trim();
    if (!field.matches("input, select, textarea")) found.push(`${name}: is no field`);
    if (field.getAttribute("aria-invalid") !== "true") found.push(`${name}: not marked as wrong`);
    const group = field.closest("fieldset");
    if (![field, group].some((one) => one && described(one).includes(said)))
      found.push(`${name}: not described by “${said}”`);
    link.click();
    if (document.activeElement !== field) {
      field.focus();
      if (document.activeElement !== field) found.push(`${name}: cannot take the focus`);
    }
    if (!field.checkVisibility()) found.push(`${name}: folded away`);
  }
  return found;
}"""
