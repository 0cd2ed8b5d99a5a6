/**
 * Data that a page fetches when it needs it. From disk only classic scripts load, so each file is one: it puts
 * inert JSON under its own name into one variable.
 */

/** @returns {Record<string, unknown>} */
const shelf = () => /** @type {any} */ (window).casetrueParts ?? {};

/**
 * @param {string} address of the file, from this page
 * @param {string} name under which the file puts its data
 * @returns {Promise<any>} what stands in the file
 */
export function part(address, name) {
  if (Object.hasOwn(shelf(), name)) return Promise.resolve(shelf()[name]);
  return new Promise((done, refused) => {
    const script = document.createElement("script");
    script.src = address;
    script.onload = () => done(shelf()[name]);
    script.onerror = () => refused(new Error(address));
    document.head.append(script);
  });
}

/**
 * HTML that our own templates wrote, as elements. Nothing in it runs: it is parsed apart from the page.
 * @param {string} html
 */
export const parsed = (html) => [...new DOMParser().parseFromString(html, "text/html").body.childNodes];
