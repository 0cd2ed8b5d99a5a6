/**
 * What a page fetches when it needs it. From disk only classic scripts load, so each file is one: it puts inert JSON, or
 * what a script does, under its own name into one variable.
 */

/** @returns {Record<string, unknown>} */
const shelf = () => /** @type {any} */ (window).casetrueParts ?? {};

/**
 * What a script that is loaded later has for those who wait for it.
 * @param {string} name
 * @param {unknown} value
 */
export const shelve = (name, value) => Object.assign(((/** @type {any} */ (window)).casetrueParts ??= {}), { [name]: value });

/** What was asked for and is here or on its way. @type {Map<string, Promise<any>>} */
const asked = new Map();

/**
 * @param {string} address of the file, from this page
 * @param {string} name under which the file puts its data
 * @returns {Promise<any>} what stands in the file
 */
export function part(address, name) {
  const found = asked.get(name) ?? load(address, name);
  asked.set(name, found);
  return found;
}

/**
 * @param {string} address
 * @param {string} name
 */
function load(address, name) {
  return new Promise((done, refused) => {
    const script = document.createElement("script");
    script.src = address;
    // A network that answers with a page of its own loads as well, and brings no data.
    script.onload = script.onerror = () => {
      if (Object.hasOwn(shelf(), name)) return done(shelf()[name]);
      asked.delete(name);
      script.remove();
      return refused(new Error(address));
    };
    document.head.append(script);
  });
}

/**
 * HTML that our own templates wrote, as elements. Nothing in it runs: it is parsed apart from the page.
 * @param {string} html
 */
export const parsed = (html) => [...new DOMParser().parseFromString(html, "text/html").body.childNodes];
