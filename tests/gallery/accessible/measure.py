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
    const { overflowX, overflowY } = getComputedStyle(one);
    return [overflowX, overflowY].some((way) => ["hidden", "clip"].includes(way));
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
  * { line-height: 1.5 !important; letter-spacing: 0.12em !important; }
  * { word-spacing: 0.16em !important; }
  p { margin-bottom: 2em !important; }
"""

# All that Tab should reach, numbered; of a group of radio buttons the browser reaches one.
TAB_STOPS = """() => {
  const things = "a[href], button, summary, select, textarea, video, [tabindex='0'], " +
    "input:not([type=hidden])";
  const groups = new Set();
  const stops = [...document.querySelectorAll(things)].filter((one) => {
    if (!one.checkVisibility({ visibilityProperty: true }) || one.disabled) return false;
    if (one.tabIndex < 0) return false;
    if (one.type !== "radio") return true;
    const group = `${[...document.forms].indexOf(one.form)} ${one.name}`;
    const is_new = !groups.has(group);
    groups.add(group);
    return is_new;
  });
  window.stopOf = (one) => stops.findIndex((stop) => stop === one ||
    (one.type === "radio" && stop.name === one.name && stop.form === one.form));
  window.stops = stops;
  return stops.length;
}"""

# Where the focus is: its number, and what is wrong: covered by something, or without a ring.
FOCUS = """() => {
  const one = document.activeElement;
  if (!one || one === document.body) return [-1, ""];
  const whole = one.closest("label.choice, .form-check, .photo-card") ?? one;
  const box = (one.matches("input") ? whole : one).getBoundingClientRect();
  const parts = [0.05, 0.5, 0.95];
  const isSeen = parts.some((x) => parts.some((y) => {
    const top = document.elementFromPoint(box.left + box.width * x, box.top + box.height * y);
    return top && (one.contains(top) || whole.contains(top));
  }));
  const ring = (it, part) => {
    const { outlineStyle, outlineWidth } = getComputedStyle(it, part);
    return outlineStyle !== "none" && parseFloat(outlineWidth) >= 2;
  };
  const hasRing = [one, whole].some((it) => ring(it) || ring(it, "::after"));
  const name = `${one.tagName} ${one.name ?? ""} ${one.textContent.trim().slice(0, 30)}`;
  const wrong = isSeen ? (hasRing ? "" : "without a ring") : "covered";
  return [window.stopOf(one), wrong && `${name}: ${wrong}`];
}"""
NAME_OF_STOP = "(number) => window.stops[number].outerHTML.slice(0, 90)"

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
    if (!field.checkVisibility()) found.push(`${name}: folded away`);
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
  }
  return found;
}"""
