/**
 * The interface's words for the browser. The page carries one inert JSON block, written from the same
 * catalogue as the pages; the English text is its own key, so the code reads as what people see.
 */

/** @type {Record<string, string> | undefined} */
let catalogue;

/** @returns {Record<string, string>} */
function load() {
  const block = document.getElementById("words");
  try {
    return JSON.parse(block?.textContent || "{}");
  } catch {
    return {};
  }
}

/**
 * The words for `message`, its `{name}` fields filled from `values`.
 * @param {string} message
 * @param {Record<string, string | number>} [values]
 */
export function say(message, values = {}) {
  catalogue ??= load();
  return fill(Object.hasOwn(catalogue, message) ? catalogue[message] : message, values);
}

/**
 * A text with its `{name}` fields filled from `values`.
 * @param {string} text
 * @param {Record<string, string | number>} values
 */
export function fill(text, values) {
  return text.replace(/\{(\w+)\}/g, (field, name) => (Object.hasOwn(values, name) ? String(values[name]) : field));
}
