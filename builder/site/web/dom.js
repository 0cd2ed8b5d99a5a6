/** Small helpers for building HTML. Text only ever becomes text. */

/**
 * @template {keyof HTMLElementTagNameMap} Tag
 * @param {Tag} tag
 * @param {Record<string, string | boolean>} [attributes] a false value leaves the attribute out
 * @param {...(Node | string)} children
 * @returns {HTMLElementTagNameMap[Tag]}
 */
export function make(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  set(element, attributes);
  element.append(...children);
  return element;
}

/**
 * @param {string} words
 * @param {() => void} act
 * @param {{signal: AbortSignal, kind?: string}} how `kind` is the button's class
 */
export function button(words, act, { signal, kind = "" }) {
  const made = make("button", { type: "button", class: kind || false }, words);
  made.addEventListener("click", act, { signal });
  return made;
}

const SVG = "http://www.w3.org/2000/svg";

/**
 * @param {string} tag
 * @param {Record<string, string | boolean>} [attributes]
 * @param {...(Node | string)} children
 * @returns {SVGElement}
 */
export function draw(tag, attributes = {}, ...children) {
  const element = /** @type {SVGElement} */ (document.createElementNS(SVG, tag));
  set(element, attributes);
  element.append(...children);
  return element;
}

/**
 * @param {Element} element
 * @param {Record<string, string | boolean>} attributes
 */
function set(element, attributes) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value !== false) element.setAttribute(name, value === true ? "" : value);
  }
}

/**
 * A copy with its own ids, so that the same step can stand on the page twice.
 * @template {Element} E
 * @param {E} original
 * @param {string} suffix
 * @returns {E}
 */
export function copy(original, suffix) {
  const twin = /** @type {E} */ (original.cloneNode(true));
  const named = [...(twin.id ? [twin] : []), ...twin.querySelectorAll("[id]")];
  const ids = new Set(named.map((element) => element.id));
  for (const element of [twin, ...twin.querySelectorAll("*")]) {
    for (const attribute of element.attributes) {
      if (attribute.name === "id" || attribute.name === "name") attribute.value += suffix;
      else if (/^(for|aria-(labelledby|describedby|controls))$/.test(attribute.name)) {
        attribute.value = attribute.value.replace(/\S+/g, (id) => (ids.has(id) ? id + suffix : id));
      } else if (/^(href|fill|clip-path|mask|marker-end)$/.test(attribute.name)) {
        attribute.value = attribute.value.replace(/^(url\()?#([^)]+)/, (all, open = "", id) =>
          ids.has(id) ? `${open}#${id}${suffix}` : all,
        );
      }
    }
  }
  return twin;
}

/**
 * The inert JSON block of an element.
 * @param {Element} element
 * @returns {any} whatever the builder wrote there
 */
export function data(element) {
  return JSON.parse(element.querySelector('script[type="application/json"]')?.textContent || "null");
}

/** The address of this page without what it asks for. In full: a path that starts with two slashes names a server. */
export const here = () => location.href.replace(/[?#].*/s, "");

/**
 * Moves the reader to a place: keyboard and screen reader by focus, the eye by scrolling.
 * @param {HTMLElement | null | undefined} place
 * @param {Element | null} [top] what the eye should meet first, where that is not the place itself
 * @param {Element | null} [last] what should be on the screen with it
 */
export function goTo(place, top = place, last = null) {
  if (!place) return;
  if (place.tabIndex < 0) place.tabIndex = -1;
  place.focus({ preventScroll: true });
  const at = top?.getBoundingClientRect().top ?? 0;
  if (at < 0 || at > innerHeight / 2 || (last?.getBoundingClientRect().bottom ?? 0) > innerHeight) top?.scrollIntoView();
}
