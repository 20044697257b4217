/** The element of the page's own markup with that name. */
export function byId<T extends HTMLElement = HTMLElement>(id: string): T {
  return document.getElementById(id) as T;
}

/** A new element with a class, text and children. */
export function made<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  className = "",
  ...content: (string | Node)[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  if (className !== "") element.className = className;
  element.append(...content);
  return element;
}

/** A button that does one thing. */
export function button(text: string, onClick: () => void): HTMLButtonElement {
  const element = made("button", "", text);
  element.type = "button";
  element.addEventListener("click", onClick);
  return element;
}
