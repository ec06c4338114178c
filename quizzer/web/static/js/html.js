/** The one door by which text becomes HTML. The browser refuses all others (require-trusted-types-for 'script'), and
 * this one lets through only strings that stood in a pack, word for word. A pack comes from this server alone: its
 * address is of the same origin, and all text of the bank was escaped there. What a person types is set as text. */

/** @type {Set<string>} */
const given = new Set();

const doors = {
  createHTML: (/** @type {string} */ text) => {
    if (!given.has(text)) throw new TypeError("no text of a pack");
    return text;
  },
  createScriptURL: (/** @type {string} */ address) => {
    if (address !== "/sw.js") throw new TypeError("no worker of ours");
    return address;
  },
};
const policy = globalThis.trustedTypes?.createPolicy("quizzer", doors) ?? doors;
export const WORKER = policy.createScriptURL("/sw.js");

/** Let the strings of a pack through. @param {unknown} pack */
export function trust(pack) {
  if (typeof pack === "string") given.add(pack);
  else if (pack && typeof pack === "object") Object.values(pack).forEach(trust);
}

/** Put a fragment of the pack into an element. @template {Element} T @param {T} element @param {string} html @returns {T} */
export function put(element, html) {
  element.innerHTML = policy.createHTML(html);
  return element;
}

/** A copy of a template of the page. @param {string} id @returns {DocumentFragment} */
export function copy(id) {
  const template = /** @type {HTMLTemplateElement} */ (document.getElementById(id));
  return /** @type {DocumentFragment} */ (template.content.cloneNode(true));
}

/** A new element with its properties. @template {keyof HTMLElementTagNameMap} K @param {K} name @param {Partial<HTMLElementTagNameMap[K]>} properties */
export const make = (name, properties) => Object.assign(document.createElement(name), properties);
